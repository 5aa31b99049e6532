package org.barmap.reckon.cost;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.List;
import org.barmap.map.Evidence;
import org.barmap.map.json.BarMapJson;
import org.barmap.reckon.set.CostSettings;
import org.barmap.reckon.set.ReckonSettings;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.Sign;

/**
 * Turns the reader's probabilities of marks and meters, and the product of an entry's, into
 * calibrated ones: of all that are given 0.9, nine in ten are right.
 *
 * <p>Of single signs logistic in the reader's probability that the sign is there and says what it
 * reads; of entries piecewise linear and rising. Both are fitted on the read pages of the corpus
 * ({@code barmap fit costs}) and kept in {@code calibration.json}; the report shows how well what
 * is fitted on one half of the pages does on the other.
 */
public final class Calibration {

  private static final CostSettings.Calibrating SET = ReckonSettings.STANDARD.cost().calibrating();

  /** The shipped one, {@code calibration.json}. */
  public static final Calibration DEFAULT = load();

  /** Knots that leave the product as it is. */
  public static final double[][] AS_IT_IS = {{0, 0}, {1, 1}};

  /**
   * How sure a sign is.
   *
   * @param bias logarithm of the odds of one that the reader gives one half
   * @param slope how far the logarithm of its odds follows the reader's
   */
  public record Sure(double bias, double slope) {

    /** The reader's own probability: that the sign is there and says what it reads. */
    public static double read(Sign sign) {
      List<Reading> says = sign.readings();
      return sign.probability() * (says.isEmpty() ? 0.5 : says.get(0).probability());
    }

    /** How likely a sign is right that the reader gives some probability. */
    public double of(double read) {
      double p = Math.max(SET.least(), Math.min(1 - SET.least(), read));
      return 1 / (1 + Math.exp(-bias - slope * Math.log(p / (1 - p))));
    }
  }

  /** How sure single signs are. */
  public record Signs(Sure mark, Sure meter) {}

  private final Signs signs;

  /** Pairs of raw product and share of entries that were right, both rising. */
  private final double[][] knots;

  /** Takes the maps of single signs, and the points of the map of bars. */
  public Calibration(Signs signs, double[][] knots) {
    this.signs = signs;
    this.knots = knots.clone();
  }

  private record Kept(Signs signs, double[][] knots) {}

  /** Returns the maps of single signs. */
  public Signs signs() {
    return signs;
  }

  /** Returns the points of the map of bars. */
  public double[][] knots() {
    return knots.clone();
  }

  /** How likely a rehearsal mark is there and says what it reads. */
  public double mark(Sign sign) {
    return signs.mark().of(Sure.read(sign));
  }

  /** How likely a time signature is there and says what it reads. */
  public double meter(Sign sign) {
    return signs.meter().of(Sure.read(sign));
  }

  private static Calibration load() {
    try (InputStream in = Calibration.class.getResourceAsStream("calibration.json")) {
      if (in == null) {
        throw new IOException("calibration.json is not among the program's resources");
      }
      Kept kept = BarMapJson.mapper().readValue(in, Kept.class);
      return new Calibration(kept.signs(), kept.knots());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Returns the calibrated confidence, 0 to 1. */
  public double of(double raw) {
    for (int i = 1; i < knots.length; i++) {
      if (raw <= knots[i][0]) {
        double width = Math.max(SET.narrowest(), knots[i][0] - knots[i - 1][0]);
        double share = Math.max(0, (raw - knots[i - 1][0]) / width);
        double value = knots[i - 1][1] + share * (knots[i][1] - knots[i - 1][1]);
        return Evidence.rounded(value);
      }
    }
    return knots[knots.length - 1][1];
  }
}
