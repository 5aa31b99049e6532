package org.barmap.staff;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.DoubleStream;

/**
 * A stroke across a single line, as far above it as below: a barline may be one.
 *
 * @param from left side, working pixels
 * @param to right side
 * @param half half its height, pixels
 * @param up pixels above the line
 * @param down pixels below
 */
record LoneStroke(double from, double to, double half, double up, double down) {

  private static final LoneSettings.Stroke SET = LoneSettings.STANDARD.stroke();

  /** Returns its width in pixels. */
  double wide() {
    return to - from + 1;
  }

  double x() {
    return (from + to) / 2;
  }

  /** Returns the strokes across a line that may be barlines, from left to right. */
  static List<LoneStroke> across(Pixels pixels, LoneLine line) {
    return groups(pixels, line).stream()
        .filter(s -> s.half >= SET.least() && s.wide() <= SET.wide() * s.half)
        .filter(s -> s.isFree(pixels, line, s.heights()))
        .toList();
  }

  /** The same across two lines that lie so far apart; the line given runs between them. */
  static List<LoneStroke> across(Pixels pixels, LoneLine line, double apart) {
    return groups(pixels, line).stream()
        .filter(s -> s.wide() <= SET.twinWide() * apart && s.isFree(pixels, line, s.heights(apart)))
        .toList();
  }

  /**
   * Returns with the barlines what stands close to them and is as high: the other strokes of double
   * and final ones and of repeats, whose sides are not free.
   */
  static List<LoneStroke> whole(Pixels pixels, LoneLine line, List<LoneStroke> bars) {
    return groups(pixels, line).stream()
        .filter(s -> bars.contains(s) || bars.stream().anyMatch(b -> b.hasPartner(s)))
        .filter(s -> bars.contains(s) || s.isStraight(pixels, line))
        .filter(s -> bars.contains(s) || !s.isEndOfRest(pixels, line))
        .toList();
  }

  private boolean hasPartner(LoneStroke other) {
    double gap = Math.max(other.from - to, from - other.to);
    return gap <= SET.partner() * half
        && other.wide() <= SET.partnerWide() * half
        && Math.abs(other.half - half) <= Math.max(1, SET.alike() * half);
  }

  /** Beside the bow of a C there is ink near its ends. */
  private boolean isStraight(Pixels pixels, LoneLine line) {
    double height = SET.partnerAt() * half;
    for (double x : new double[] {from - SET.partnerSide(), to + SET.partnerSide()}) {
      double y = line.at(x);
      if (pixels.at(x, y - height) < SET.ink() || pixels.at(x, y + height) < SET.ink()) {
        return false;
      }
    }
    return true;
  }

  /** The bar of a rest is thicker than the line, and lower than a barline. */
  private boolean isEndOfRest(Pixels pixels, LoneLine line) {
    for (int side = -1; side <= 1; side += 2) {
      int low = 0;
      for (int far : SET.beside()) {
        double x = side < 0 ? from - far : to + far;
        double y = line.at(x);
        int high = run(pixels, x, y, -1) + run(pixels, x, y, 1);
        low += high >= 2 * line.thick() + SET.thicker() && high < half ? 1 : 0;
      }
      if (low == SET.beside().size()) {
        return true;
      }
    }
    return false;
  }

  private double[] heights() {
    return SET.from().stream().mapToDouble(share -> share * half).toArray();
  }

  /** Clear of the two lines: between them, and half way on where it goes on beyond them. */
  private double[] heights(double apart) {
    double line = apart / 2;
    DoubleStream between = SET.between().stream().mapToDouble(share -> share * line);
    double beyond = (line + half) / 2;
    return beyond < line * SET.further()
        ? between.toArray()
        : DoubleStream.concat(between, DoubleStream.of(beyond)).toArray();
  }

  /** Returns what is as high above a line as below it, thicker than the line. */
  static List<LoneStroke> groups(Pixels pixels, LoneLine line) {
    List<LoneStroke> found = new ArrayList<>();
    double start = Double.NaN;
    double highest = 0;
    double end = line.right() + SET.side() * 2;
    for (double x = line.left() - SET.side(); x <= end; x++) {
      double half = half(pixels, line, x);
      if (half > 0 && Double.isNaN(start)) {
        start = x;
        highest = half;
      } else if (half <= 0 && !Double.isNaN(start)) {
        found.add(of(pixels, line, start, x - 1, highest));
        start = Double.NaN;
      }
      highest = Math.max(highest, half);
    }
    return found;
  }

  private static LoneStroke of(
      Pixels pixels, LoneLine line, double from, double to, double highest) {
    double x = (from + to) / 2;
    double y = line.at(x);
    return new LoneStroke(from, to, highest, run(pixels, x, y, -1), run(pixels, x, y, 1));
  }

  /**
   * Returns what is thicker than a line where it lies on one, with the mean of its height above and
   * below; columns higher than a limit, stems, aren't counted.
   */
  static List<LoneStroke> blobs(Pixels pixels, LoneLine line, double most) {
    List<LoneStroke> found = new ArrayList<>();
    double start = Double.NaN;
    double highest = 0;
    double above = 0;
    double below = 0;
    for (double x = line.left(); x <= line.right(); x++) {
      double y = line.at(x);
      int up = run(pixels, x, y, -1);
      int down = run(pixels, x, y, 1);
      boolean thick = up + down >= 2 * SET.thick() && Math.max(up, down) <= 2 * most;
      if (thick && Double.isNaN(start)) {
        start = x;
        highest = 0;
        above = 0;
        below = 0;
      } else if (!thick && !Double.isNaN(start)) {
        double wide = x - start;
        found.add(new LoneStroke(start, x - 1, highest, above / wide, below / wide));
        start = Double.NaN;
      }
      highest = Math.max(highest, (up + down) / 2.0);
      above += up;
      below += down;
    }
    return found;
  }

  /** Half the height of the ink of a column, 0 where it isn't as high above as below. */
  private static double half(Pixels pixels, LoneLine line, double x) {
    double y = line.at(x);
    int up = run(pixels, x, y, -1);
    int down = run(pixels, x, y, 1);
    double half = (up + down) / 2.0;
    boolean even =
        half >= SET.thick()
            && Math.abs(up - down) <= Math.max(SET.slack(), 2 * SET.uneven() * half)
            && Math.max(up, down) < SET.reach();
    return even ? half : 0;
  }

  /** Returns the usual ink above and below the middle of a line. */
  static double thickness(Pixels pixels, LoneLine line) {
    double[] runs =
        DoubleStream.iterate(line.left(), x -> x < line.right(), x -> x + SET.side())
            .map(x -> (run(pixels, x, line.at(x), -1) + run(pixels, x, line.at(x), 1)) / 2.0)
            .sorted()
            .toArray();
    return runs.length == 0 ? 0 : runs[(int) (runs.length * SET.usual())];
  }

  /** Counts the pixels of ink from a height up or down; a stroke may lean a little. */
  private static int run(Pixels pixels, double x, double y, int direction) {
    int n = 0;
    while (n < SET.reach() && isInk(pixels, x, y + direction * (n + 1))) {
      n++;
    }
    return n;
  }

  private static boolean isInk(Pixels pixels, double x, double y) {
    return pixels.at(x, y) < SET.ink()
        || pixels.at(x - 1, y) < SET.ink()
        || pixels.at(x + 1, y) < SET.ink();
  }

  /** Nothing touches a barline but its line: no head, no bar of a rest, no other line. */
  private boolean isFree(Pixels pixels, LoneLine line, double[] heights) {
    for (double height : heights) {
      for (int side = -1; side <= 1; side += 2) {
        double x = side < 0 ? from - SET.side() : to + SET.side();
        double y = line.at(x);
        if (pixels.at(x, y - height) < SET.ink() || pixels.at(x, y + height) < SET.ink()) {
          return false;
        }
      }
    }
    double y = line.at(x());
    return !isBarBeside(pixels, line, -1)
        && !isBarBeside(pixels, line, 1)
        && isEnd(pixels, y - up - SET.beyond())
        && isEnd(pixels, y + down + SET.beyond());
  }

  /** Beside the end stroke of a rest of several bars the line is as thick as its bar. */
  private boolean isBarBeside(Pixels pixels, LoneLine line, int side) {
    for (int far : SET.beside()) {
      double x = side < 0 ? from - far : to + far;
      double y = line.at(x);
      if (run(pixels, x, y, -1) + run(pixels, x, y, 1) < 2 * line.thick() + SET.thicker()) {
        return false;
      }
    }
    return true;
  }

  private boolean isEnd(Pixels pixels, double y) {
    int dark = 0;
    for (double x = from - SET.aside(); x <= to + SET.aside(); x++) {
      dark += pixels.at(x, y) < SET.ink() ? 1 : 0;
    }
    return dark <= 1;
  }
}
