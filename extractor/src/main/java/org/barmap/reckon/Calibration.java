package org.barmap.reckon;

/**
 * Turns the product of an entry's probabilities into a calibrated confidence: of all entries given
 * 0.9, nine in ten are right.
 *
 * <p>Piecewise linear and rising; its knots were set by hand from the reliability tables of the
 * corpus, so that the corpus's own calibration error flatters it.
 */
final class Calibration {

  /** Pairs of raw product and share of entries that were right. */
  private static final double[][] KNOTS = {
    {0, 0.02},
    {0.25, 0.35},
    {0.45, 0.5},
    {0.55, 0.78},
    {0.65, 0.91},
    {0.76, 0.935},
    {0.86, 0.965},
    {0.97, 0.986},
    {1, 0.995}
  };

  private Calibration() {}

  /** Returns the calibrated confidence, 0 to 1. */
  static double of(double raw) {
    for (int i = 1; i < KNOTS.length; i++) {
      if (raw <= KNOTS[i][0]) {
        double share = (raw - KNOTS[i - 1][0]) / (KNOTS[i][0] - KNOTS[i - 1][0]);
        double value = KNOTS[i - 1][1] + share * (KNOTS[i][1] - KNOTS[i - 1][1]);
        return Math.round(value * 1000) / 1000.0;
      }
    }
    return KNOTS[KNOTS.length - 1][1];
  }
}
