package org.barmap.reckon;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import org.barmap.map.BarMapJson;

/**
 * Turns the product of an entry's probabilities into a calibrated confidence: of all entries given
 * 0.9, nine in ten are right.
 *
 * <p>Piecewise linear and rising. Its knots are fitted on the read pages of the corpus ({@code
 * FitTest} in the corpus module) and kept in {@code calibration.json}; the report shows how well
 * knots fitted on one half of the pages do on the other.
 */
final class Calibration {

  static final Calibration DEFAULT = load();

  /** Leaves the product as it is. */
  static final Calibration NONE = new Calibration(new double[][] {{0, 0}, {1, 1}});

  /** Pairs of raw product and share of entries that were right, both rising. */
  private final double[][] knots;

  Calibration(double[][] knots) {
    this.knots = knots.clone();
  }

  private record Kept(double[][] knots) {}

  private static Calibration load() {
    try (InputStream in = Calibration.class.getResourceAsStream("calibration.json")) {
      if (in == null) {
        throw new IOException("calibration.json is not among the program's resources");
      }
      return new Calibration(BarMapJson.mapper().readValue(in, Kept.class).knots());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Returns the calibrated confidence, 0 to 1. */
  double of(double raw) {
    for (int i = 1; i < knots.length; i++) {
      if (raw <= knots[i][0]) {
        double width = Math.max(1e-9, knots[i][0] - knots[i - 1][0]);
        double share = Math.max(0, (raw - knots[i - 1][0]) / width);
        double value = knots[i - 1][1] + share * (knots[i][1] - knots[i - 1][1]);
        return Math.round(value * 1000) / 1000.0;
      }
    }
    return knots[knots.length - 1][1];
  }
}
