package org.barmap.bench;

import java.io.IOException;
import java.util.Arrays;
import java.util.stream.DoubleStream;

/**
 * How often one step is timed after another.
 *
 * @param counted calls whose median is the figure
 */
record Rounds(int counted) {

  /** Calls that count unless fewer are asked for. */
  static final int USUAL = 41;

  Rounds {
    if (counted < 1) {
      throw new IllegalArgumentException("at least one round has to count");
    }
  }

  /** Returns calls before those that count: as many as usual, or fewer in proportion. */
  int warmUp(int usual) {
    return Math.min(usual, usual * counted / USUAL);
  }

  /**
   * Clicks, and closes what was clicked in.
   *
   * @param usualWarmUp clicks before those that count, see {@link #warmUp}; their rounds are
   *     negative
   * @return the median of the clicks that count, milliseconds
   */
  double medianMillis(Click click, int usualWarmUp) throws IOException {
    long[] nanos = new long[counted];
    try (click) {
      for (int i = -warmUp(usualWarmUp); i < counted; i++) {
        long start = System.nanoTime();
        click.once(i);
        if (i >= 0) {
          nanos[i] = System.nanoTime() - start;
        }
      }
    }
    Arrays.sort(nanos);
    return rounded(nanos[counted / 2] / 1e6);
  }

  /** The same for steps that leave nothing to close. */
  double medianMillis(Step step, int usualWarmUp) throws IOException {
    return medianMillis(
        new Click() {
          @Override
          public void once(int round) throws IOException {
            step.take(round);
          }

          @Override
          public void close() {
            // what it was taken in serves the next kind of step
          }
        },
        usualWarmUp);
  }

  /** One step of some kind. */
  interface Step {

    /**
     * Takes it once.
     *
     * @param round which time; negative while warming up
     */
    void take(int round) throws IOException;
  }

  /** Returns the median of times, rounded; the upper one of two in the middle. */
  static double median(DoubleStream times) {
    double[] sorted = times.sorted().toArray();
    return rounded(sorted[sorted.length / 2]);
  }

  /** Rounds a figure to a thousandth. */
  static double rounded(double value) {
    return Math.round(value * 1000) / 1000.0;
  }
}
