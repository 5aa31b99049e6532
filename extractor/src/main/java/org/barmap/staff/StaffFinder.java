package org.barmap.staff;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.barmap.map.Finding;
import org.barmap.map.Severity;
import org.barmap.map.Stage;
import org.barmap.page.PageImage;
import org.barmap.page.pixel.WorkStep;

/** Finds the systems of a page. */
public final class StaffFinder {

  private static final StaffSettings.Lines SET = StaffSettings.STANDARD.lines();

  private StaffFinder() {}

  /**
   * Finds the systems of a page from top to bottom.
   *
   * <p>Staves clearly smaller than the page's usual (cues, ossia) and pieces of staves cut off by
   * the page's edge are left out.
   *
   * @return the systems, empty when there is no music on the page
   */
  public static List<FoundSystem> find(PageImage page) {
    Pixels pixels = Pixels.of(page.gray());
    List<FoundSystem> systems = look(page, pixels);
    // Between the lines of a staff of one line or two nothing tells where it begins.
    List<Staff> staves =
        systems.stream().flatMap(s -> s.staves().stream()).filter(s -> s.few().isEmpty()).toList();
    if (UpsideDown.is(pixels, staves)) {
      page.turnHalf();
      systems = look(page, Pixels.of(page.gray()));
    }
    return systems;
  }

  /** Returns what to tell about a page's staves: one finding when there are none. */
  public static List<Finding> findings(PageImage page, List<FoundSystem> systems) {
    return systems.isEmpty()
        ? List.of(
            Finding.ofPage(
                Severity.DOUBT,
                Stage.STAFF,
                0,
                "no-staves",
                page.source()
                    + ": no staves were found on this page; if there is music on it, photograph or"
                    + " scan it again, the whole page, sharp and evenly lit."))
        : List.of();
  }

  private static List<FoundSystem> look(PageImage page, Pixels pixels) {
    Lines lines = new Lines(page);
    List<Candidate> all = candidates(page, pixels, lines);
    List<Candidate> five = FaintStaves.with(Candidate.good(all), all, pixels);
    List<Candidate> staves =
        Stream.concat(five.stream(), LoneStaves.find(page, pixels, lines, five).stream())
            .sorted(Comparator.comparingDouble(c -> c.staff().height()))
            .toList();
    return Systems.group(page, pixels, staves);
  }

  /** Returns everything that was looked at as a staff, good or not. */
  static List<Candidate> candidates(PageImage page, Pixels pixels) {
    return candidates(page, pixels, new Lines(page));
  }

  /** What looks like lines on a page; measured when it is asked for, and once. */
  static final class Lines {
    private final PageImage page;
    private Optional<LineBlocks> seen = Optional.empty();

    Lines(PageImage page) {
      this.page = page;
    }

    /** Returns them, by a staff space that is the page's where it has one. */
    LineBlocks by(double space) {
      LineBlocks lines = seen.orElseGet(() -> LineBlocks.of(page.gray(), space));
      seen = Optional.of(lines);
      return lines;
    }
  }

  private static List<Candidate> candidates(PageImage page, Pixels pixels, Lines seen) {
    double space = page.staffSpace();
    if (space <= 0 || page.gray().rows() < SET.leastHeight() * space) {
      return List.of();
    }
    LineBlocks lines = seen.by(space);
    if (lines.contrast() < SET.least()) {
      return List.of();
    }
    double small = space * lines.scale();
    List<Tracks.Track> tracks = Tracks.find(Comb.of(lines, small), small);
    List<Optional<Candidate>> candidates =
        new ArrayList<>(Collections.nCopies(tracks.size(), Optional.empty()));
    WorkStep.STAVES.spread(
        tracks.size(), i -> candidates.set(i, Candidate.of(lines, pixels, tracks.get(i), small)));
    return candidates.stream().flatMap(Optional::stream).toList();
  }
}
