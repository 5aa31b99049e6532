package org.barmap.reckon.cells;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import org.barmap.reckon.set.CellSettings;
import org.barmap.reckon.set.ReckonSettings;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;

/**
 * How wide a cell is for what stands in it: too wide and a barline was missed, too narrow and a
 * line is none.
 */
public final class Room {

  private static final CellSettings.Rooms SET = ReckonSettings.STANDARD.cells().rooms();

  private Room() {}

  /**
   * The width in the middle of all bars of music on a system's page; where a page has few, in the
   * middle of the book's; staff spaces.
   *
   * @return one width for each system
   */
  public static List<Double> usual(List<SystemCells> systems) {
    double ofBook = median(systems.stream().flatMapToDouble(Room::played).toArray());
    List<Double> out = new ArrayList<>();
    for (OnPage page : pages(systems)) {
      double[] own =
          systems.subList(page.from, page.to).stream().flatMapToDouble(Room::played).toArray();
      out.addAll(
          Collections.nCopies(page.to - page.from, own.length < SET.few() ? ofBook : median(own)));
    }
    return out;
  }

  /** The systems of one page, from one up to before another. */
  record OnPage(int from, int to) {}

  /** Parts a book's systems by pages. */
  static List<OnPage> pages(List<SystemCells> systems) {
    List<OnPage> out = new ArrayList<>();
    int from = 0;
    for (int to = 1; to <= systems.size(); to++) {
      if (to == systems.size() || index(systems, to) <= index(systems, to - 1)) {
        out.add(new OnPage(from, to));
        from = to;
      }
    }
    return out;
  }

  /** A system's place on its page; one that doesn't rise begins a page. */
  private static int index(List<SystemCells> systems, int i) {
    return systems.get(i).source().system().index();
  }

  /** Widths of a system's bars of music. */
  private static DoubleStream played(SystemCells cells) {
    return IntStream.range(0, cells.lines().size())
        .filter(c -> GapEvidence.whole(cells, c).isEmpty())
        .mapToDouble(cells::musicWidth);
  }

  /**
   * The mean width (of the logarithms) of a line's other bars of music, the page's usual width
   * counted as one more of them; staff spaces.
   */
  static double others(SystemCells cells, int cell, double usual) {
    double log = Math.log(usual);
    int n = 1;
    for (int c = 0; c < cells.lines().size(); c++) {
      if (c != cell && GapEvidence.whole(cells, c).isEmpty()) {
        log += Math.log(Math.max(SET.leastBar(), cells.musicWidth(c)));
        n++;
      }
    }
    return Math.exp(log / n);
  }

  /** The width in the middle of a system's cells of music, where it has some. */
  public static double usual(SystemCells cells, double usual) {
    double[] played = played(cells).toArray();
    return played.length >= SET.fewOnLine() ? median(played) : usual;
  }

  /**
   * Width of the narrower of the two cells beside a line, against the usual one of a bar that holds
   * as many notes.
   */
  static double beside(SystemCells cells, int line, double usual) {
    double left = cells.width(line) / expected(cells, line, usual);
    double right =
        line + 1 < cells.lines().size()
            ? cells.width(line + 1) / expected(cells, line + 1, usual)
            : 1;
    return Math.min(left, right);
  }

  /**
   * How wide a cell is expected to be: engravers give a bar with few notes less room (common
   * practice).
   */
  private static double expected(SystemCells cells, int cell, double usual) {
    int own = cells.sounds(cell);
    double mean =
        IntStream.range(0, cells.lines().size())
            .map(cells::sounds)
            .filter(n -> n > 0)
            .average()
            .orElse(0);
    double share = own == 0 ? 1 : Math.min(1, (own + SET.even()) / (mean + SET.even()));
    return usual * share;
  }

  /** A line within a thick rest bar is part of it. */
  static boolean insideRest(SystemCells cells, int line) {
    double at = cells.to(line);
    return cells.signs(SignKind.MULTI_REST).stream()
        .anyMatch(s -> s.from() + SET.restEdge() < at && at < s.to() - SET.restEdge());
  }

  /**
   * Where something stands inside a cell that stands at a bar's beginning: a mark, a bar number, a
   * meter, a segno or a coda sign.
   */
  static Optional<Double> markInside(SystemCells cells, int cell) {
    double from = cells.from(cell);
    double to = cells.to(cell);
    return cells.source().signs().stream()
        .filter(s -> begins(s.kind()))
        .filter(
            s ->
                s.probability() >= SET.there()
                    && s.from() > from + SET.inside()
                    && s.to() < to - SET.inside())
        .map(Sign::at)
        .findFirst();
  }

  private static boolean begins(SignKind kind) {
    return switch (kind) {
      case REHEARSAL, BAR_NUMBER, METER, SEGNO, CODA -> true;
      default -> false;
    };
  }

  private static double median(double[] values) {
    if (values.length == 0) {
      return SET.unknown();
    }
    double[] sorted = values.clone();
    Arrays.sort(sorted);
    return Math.max(SET.least(), sorted[sorted.length / 2]);
  }
}
