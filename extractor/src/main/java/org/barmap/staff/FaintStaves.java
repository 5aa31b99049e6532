package org.barmap.staff;

import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;

/**
 * Takes in staves whose lines are nearly gone, and follows lines in dashes to their ends, where the
 * page's other staves say that one is there: all lines of a page begin at one margin, and most end
 * at the other (common practice).
 */
final class FaintStaves {

  private static final StaffSettings.Faint SET = StaffSettings.STANDARD.faint();

  private FaintStaves() {}

  /** Returns the good staves and the faint ones among all that were looked at, each to its end. */
  static List<Candidate> with(List<Candidate> good, List<Candidate> all, Pixels pixels) {
    if (good.isEmpty()) {
      return good;
    }
    List<Candidate> staves = new ArrayList<>(good);
    double space = median(good, Staff::usualSpace);
    double left = median(good, Staff::left);
    long sharp = good.stream().filter(c -> near(c.staff().left(), left, space)).count();
    if (good.size() >= SET.sureStaves() && 2 * sharp > good.size()) {
      for (Candidate c : all) {
        boolean fits =
            !good.contains(c)
                && near(c.staff().left(), left, space)
                && Math.abs(c.staff().usualSpace() - space) < SET.sameSpace() * space
                && isFaint(c);
        if (fits && good.stream().noneMatch(g -> overlap(g.staff(), c.staff()))) {
          staves.add(c);
        }
      }
    }
    staves.replaceAll(c -> longer(c, good, pixels));
    return staves;
  }

  private static boolean isFaint(Candidate c) {
    return c.staff().length() >= SET.leastLength()
        && c.mean() >= SET.leastMean()
        && c.weakest() >= SET.leastWeakest()
        && c.uneven() <= SET.mostUneven()
        && c.between() < SET.mostBetween() * c.mean()
        && c.beyond() < c.weakest();
  }

  private static boolean near(double a, double b, double space) {
    return Math.abs(a - b) < SET.sharp() * space;
  }

  private static boolean overlap(Staff a, Staff b) {
    double x = (b.left() + b.right()) / 2;
    return Math.abs(a.middleAt(x) - b.middleAt(x)) < SET.apart() * a.usualSpace();
  }

  private static double median(List<Candidate> staves, ToDoubleFunction<Staff> of) {
    double[] values = staves.stream().mapToDouble(c -> of.applyAsDouble(c.staff())).toArray();
    java.util.Arrays.sort(values);
    return values[values.length / 2];
  }

  /** Goes on as far as dashes of the lines are left, in parallel with the nearest longer staff. */
  private static Candidate longer(Candidate c, List<Candidate> good, Pixels pixels) {
    Staff own = c.staff();
    double margin = good.stream().mapToDouble(g -> g.staff().right()).max().orElse(0);
    if (margin - own.right() < 2 * own.usualSpace()) {
      return c;
    }
    Staff whole = upTo(own, margin, good);
    double window = SET.window() * own.usualSpace();
    double end = own.right();
    while (end + 1 < margin && isDashed(whole, end, Math.min(margin, end + window), pixels)) {
      end = last(whole, end, Math.min(margin, end + window), pixels);
    }
    return end < own.right() + own.usualSpace()
        ? c
        : new Candidate(
            upTo(own, end, good), c.weakest(), c.mean(), c.between(), c.beyond(), c.uneven());
  }

  private static Staff upTo(Staff own, double right, List<Candidate> good) {
    Staff like =
        good.stream()
            .map(Candidate::staff)
            .filter(s -> s != own && s.right() >= right)
            .min(java.util.Comparator.comparingDouble(s -> Math.abs(s.height() - own.height())))
            .orElse(own);
    int points = (int) Math.ceil((right - own.left()) / Staff.STEP) + 1;
    double[] middle = new double[points];
    double[] space = new double[points];
    double offset = own.middleAt(own.right()) - like.middleAt(own.right());
    for (int i = 0; i < points; i++) {
      double x = own.left() + i * Staff.STEP;
      middle[i] = x > own.right() ? like.middleAt(x) + offset : own.middleAt(x);
      space[i] = own.spaceAt(Math.min(x, own.right()));
    }
    return new Staff(own.left(), right, middle, space, own.lean());
  }

  /** Tells whether at least three lines go on, and nothing between them does. */
  private static boolean isDashed(Staff staff, double from, double to, Pixels pixels) {
    int lines = 0;
    double sum = 0;
    for (int k = -2; k <= 2; k++) {
      double seen = seen(staff, from, to, k, pixels);
      lines += seen >= SET.dashed() ? 1 : 0;
      sum += seen / Staff.LINES;
    }
    double between = 0;
    for (int k = -Staff.SIXTH; k <= Staff.SIXTH; k += 2) {
      between += seen(staff, from, to, k / 2.0, pixels) / Staff.ROOMS;
    }
    return lines >= SET.dashedLines()
        && sum >= 2 * SET.dashed()
        && between < SET.dashedBetween() * sum;
  }

  /** Returns the share of columns in which a line stands at a number of spaces from the middle. */
  private static double seen(Staff staff, double from, double to, double across, Pixels pixels) {
    int seen = 0;
    for (double x = from; x < to; x++) {
      seen += isLine(staff, x, across, pixels) ? 1 : 0;
    }
    return seen / Math.max(1, to - from);
  }

  private static boolean isLine(Staff staff, double x, double across, Pixels pixels) {
    double s = staff.spaceAt(x);
    double y = staff.middleAt(x) + across * s;
    int dark = pixels.darkest(x, y - SET.near() * s, y + SET.near() * s);
    int paper = Math.min(pixels.at(x, y - SET.paperAt() * s), pixels.at(x, y + SET.paperAt() * s));
    return paper - dark > SET.darker();
  }

  /** The last column with two lines, or with a stroke through all of them. */
  private static double last(Staff staff, double from, double to, Pixels pixels) {
    double last = from + 1;
    for (double x = from; x <= to; x++) {
      int lines = 0;
      int dark = 0;
      for (int k = -Staff.ROOMS; k <= Staff.ROOMS; k++) {
        double y = staff.middleAt(x) + k * staff.spaceAt(x) / 2;
        lines += k % 2 == 0 && isLine(staff, x, k / 2.0, pixels) ? 1 : 0;
        dark += pixels.at(x, y) < SET.ink() ? 1 : 0;
      }
      last = lines >= 2 || dark >= SET.stroke() ? x + 1 : last;
    }
    return last;
  }
}
