package org.barmap.sign.hand;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Outline;
import org.barmap.map.Page.HandMark;
import org.barmap.map.Point;
import org.barmap.page.PageImage;
import org.barmap.sign.set.HandSettings;
import org.barmap.sign.set.SignSettings;
import org.barmap.staff.FoundSystem;
import org.barmap.staff.Staff;

/** Finds what is written by hand outside the staves of a page. */
public final class HandWriting {

  private static final HandSettings SET = SignSettings.STANDARD.hand();
  private static final HandNet NET = HandNet.load();

  private static final double HUNDRED = 100;

  private HandWriting() {}

  /**
   * A stroke of the page, for fitting the network.
   *
   * @param begin column of the first ink of the first row, pixels of the working image
   * @param left first column
   * @param top first row
   * @param right behind the last column
   * @param bottom behind the last row
   * @param looks what the network is given
   */
  public record Candidate(int begin, int left, int top, int right, int bottom, double[] looks) {}

  /** Returns all strokes of a page that are looked at. */
  public static List<Candidate> candidates(PageImage page, List<FoundSystem> systems) {
    if (systems.isEmpty()) {
      return List.of();
    }
    Looks looks = looks(page, systems);
    List<Candidate> all = new ArrayList<>();
    for (int i = 0; i < looks.strokes().size(); i++) {
      Stroke s = looks.strokes().get(i);
      all.add(new Candidate(s.begin(), s.left(), s.top(), s.right(), s.bottom(), looks.of(i)));
    }
    return all;
  }

  /**
   * What is written by hand on a page.
   *
   * @param marks in the file's pixels
   * @param strokes those of each mark, pixels of the working image
   */
  public record Found(List<HandMark> marks, List<List<Stroke>> strokes) {

    /** Nothing is. */
    public static final Found NONE = new Found(List.of(), List.of());

    /** Takes defensive copies. */
    public Found {
      marks = List.copyOf(marks);
      strokes = List.copyOf(strokes);
    }
  }

  /** Returns what is written by hand on a page. */
  public static Found on(PageImage page, List<FoundSystem> systems) {
    if (systems.isEmpty()) {
      return Found.NONE;
    }
    Looks looks = looks(page, systems);
    int count = looks.strokes().size();
    double[] probability = new double[count];
    boolean[] taken = new boolean[count];
    for (int i = 0; i < count; i++) {
      probability[i] = NET.probability(looks.of(i));
      taken[i] = probability[i] < SET.grown();
    }
    double gap = SET.gap() * space(systems);
    List<HandMark> marks = new ArrayList<>();
    List<List<Stroke>> own = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      if (!taken[i] && probability[i] >= SET.seed() && looks.isPencil(i)) {
        List<Integer> group = grown(looks.strokes(), taken, i, gap);
        Optional<HandMark> mark = mark(page, looks.strokes(), probability, group);
        if (mark.isPresent()) {
          marks.add(mark.get());
          own.add(group.stream().map(looks.strokes()::get).toList());
        }
      }
    }
    return marks.size() > SET.most() ? Found.NONE : new Found(marks, own);
  }

  private static double share(double value) {
    return Math.round(value * HUNDRED) / HUNDRED;
  }

  private static Looks looks(PageImage page, List<FoundSystem> systems) {
    int width = page.gray().cols();
    int height = page.gray().rows();
    byte[] gray = new byte[width * height];
    page.gray().get(0, 0, gray);
    StaffZones zones = new StaffZones(systems, width, height);
    int shade = zones.shade(gray, width);
    zones.clear(gray, width);
    double space = space(systems);
    return new Looks(Strokes.of(gray, width, zones, space), zones, space, shade);
  }

  /** The usual staff space of a page, pixels. */
  private static double space(List<FoundSystem> systems) {
    double[] spaces =
        systems.stream()
            .flatMap(s -> s.staves().stream())
            .mapToDouble(Staff::usualSpace)
            .sorted()
            .toArray();
    return spaces[spaces.length / 2];
  }

  /** Takes a stroke and all that lie close to it, to those, and so on. */
  private static List<Integer> grown(List<Stroke> strokes, boolean[] taken, int seed, double gap) {
    List<Integer> group = new ArrayList<>();
    Deque<Integer> open = new ArrayDeque<>();
    open.add(seed);
    taken[seed] = true;
    while (!open.isEmpty()) {
      int i = open.remove();
      group.add(i);
      for (int k = 0; k < strokes.size(); k++) {
        if (!taken[k] && strokes.get(i).apart(strokes.get(k)) <= gap) {
          taken[k] = true;
          open.add(k);
        }
      }
    }
    return group;
  }

  private static Optional<HandMark> mark(
      PageImage page, List<Stroke> strokes, double[] probability, List<Integer> group) {
    double sum = 0;
    double area = 0;
    int left = Integer.MAX_VALUE;
    int top = Integer.MAX_VALUE;
    int right = 0;
    int bottom = 0;
    for (int i : group) {
      Stroke s = strokes.get(i);
      sum += probability[i] * s.area();
      area += s.area();
      left = Math.min(left, s.left());
      top = Math.min(top, s.top());
      right = Math.max(right, s.right());
      bottom = Math.max(bottom, s.bottom());
    }
    if (sum < SET.whole() * area) {
      return Optional.empty();
    }
    Point[] corners = {
      page.toFile(left, top),
      page.toFile(right, top),
      page.toFile(right, bottom),
      page.toFile(left, bottom)
    };
    Outline outline = new Outline(corners[0], corners[1], corners[2], corners[1 + 2]);
    return Optional.of(
        new HandMark(
            outline.rounded(), Optional.empty(), Optional.empty(), Optional.of(share(sum / area))));
  }
}
