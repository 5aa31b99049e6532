package org.barmap.staff;

import java.util.List;

/**
 * Tells by the clefs whether a page stands on its head.
 *
 * <p>Almost every staff begins with a clef, a block of ink within its first spaces; what stands
 * before its last barline differs from staff to staff. So the emptier quarter of the staff
 * beginnings still holds much ink, the emptier quarter of the staff ends little, and on a turned
 * page the other way round. When in doubt the page is taken as it is.
 */
final class UpsideDown {

  private static final double FROM = 0.7;
  private static final double TO = 3.7;
  private static final double CLEF = 0.1;
  private static final double MORE = 1.5;

  /** So much ink at the beginnings are clefs, whatever the ends look like over a gutter. */
  private static final double NONE = 0.14;

  private UpsideDown() {}

  static boolean is(Pixels pixels, List<Staff> staves) {
    if (staves.size() < 2) {
      return false;
    }
    double begin = low(staves.stream().mapToDouble(s -> ink(pixels, s, FROM)).toArray());
    double end = low(staves.stream().mapToDouble(s -> ink(pixels, s, s.length() - TO)).toArray());
    return begin < NONE && end > CLEF && end > MORE * begin;
  }

  private static double low(double[] values) {
    java.util.Arrays.sort(values);
    return values[values.length / 4];
  }

  /** Returns the share of ink between the lines over a few spaces from a position on. */
  private static double ink(Pixels pixels, Staff staff, double from) {
    int dark = 0;
    int all = 0;
    for (double t = 0; t < TO - FROM; t += 0.1) {
      double x = staff.xAt(from + t);
      double y = staff.middleAt(x);
      double s = staff.spaceAt(x);
      for (int k = -2; k < 2; k++) {
        for (double d = 0.3; d < 0.71; d += 0.1) {
          dark += pixels.at(x, y + (k + d) * s) < 140 ? 1 : 0;
          all++;
        }
      }
    }
    return dark / (double) all;
  }
}
