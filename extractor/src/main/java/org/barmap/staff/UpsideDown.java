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

  private static final StaffSettings.Turned SET = StaffSettings.STANDARD.turned();

  private UpsideDown() {}

  static boolean is(Pixels pixels, List<Staff> staves) {
    if (staves.size() < 2) {
      return false;
    }
    double begin = low(staves.stream().mapToDouble(s -> ink(pixels, s, SET.from())).toArray());
    double end =
        low(staves.stream().mapToDouble(s -> ink(pixels, s, s.length() - SET.to())).toArray());
    return begin < SET.none() && end > SET.clef() && end > SET.more() * begin;
  }

  private static double low(double[] values) {
    java.util.Arrays.sort(values);
    return values[values.length / SET.quarter()];
  }

  /** Returns the share of ink between the lines over a few spaces from a position on. */
  private static double ink(Pixels pixels, Staff staff, double from) {
    int dark = 0;
    int all = 0;
    for (double t = 0; t < SET.to() - SET.from(); t += SET.step()) {
      double x = staff.xAt(from + t);
      double y = staff.middleAt(x);
      double s = staff.spaceAt(x);
      for (int k = -2; k < 2; k++) {
        for (double d = SET.first(); d < SET.last(); d += SET.step()) {
          dark += pixels.at(x, y + (k + d) * s) < SET.ink() ? 1 : 0;
          all++;
        }
      }
    }
    return dark / (double) all;
  }
}
