package org.barmap.bench;

import java.io.IOException;
import java.util.Arrays;

/** Times one click after another. */
final class Rounds {

  /** Calls that count. */
  static final int COUNTED = 41;

  private Rounds() {}

  /**
   * Clicks, and closes what was clicked in.
   *
   * @param warmUp clicks before those that count; their rounds are negative
   * @return the median of {@link #COUNTED} clicks, milliseconds
   */
  static double medianMillis(Click click, int warmUp) throws IOException {
    long[] nanos = new long[COUNTED];
    try (click) {
      for (int i = -warmUp; i < COUNTED; i++) {
        long start = System.nanoTime();
        click.once(i);
        if (i >= 0) {
          nanos[i] = System.nanoTime() - start;
        }
      }
    }
    Arrays.sort(nanos);
    return rounded(nanos[COUNTED / 2] / 1e6);
  }

  /** Rounds a figure to a thousandth. */
  static double rounded(double value) {
    return Math.round(value * 1000) / 1000.0;
  }
}
