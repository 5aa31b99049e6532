package org.barmap.plan.change.term;

/** Figures in words and plans: rounding, and what counts as the same. */
public final class Figures {

  /** Sums of quarters, beats and seconds that differ by less are the same: rounding errors. */
  public static final double SAME = 1e-9;

  /** Halves of a beat a minute that are the same to whoever plays it. */
  private static final double NEAR = 0.1;

  private Figures() {}

  /** Returns a figure in words, "3" or "2.5". */
  public static String plain(double value) {
    return value == Math.rint(value) ? Long.toString((long) value) : Double.toString(value);
  }

  /** Returns a figure in words with one decimal at most. */
  public static String rough(double value) {
    return plain(tenths(value));
  }

  /**
   * Returns a tempo as people say it: whole figures, or the half where one was given. What lies
   * between was reckoned, and nobody plays it to a tenth.
   *
   * @param about the word before one that lies between, "about "
   */
  public static String tempo(double perMinute, String about) {
    double twice = Math.rint(perMinute * 2);
    return Math.abs(perMinute * 2 - twice) < NEAR
        ? plain(twice / 2)
        : about + plain(Math.rint(perMinute));
  }

  /** Rounds to tenths. */
  public static double tenths(double value) {
    return Math.round(value * 10) / 10.0;
  }

  /** Rounds to hundredths. */
  public static double hundredths(double value) {
    return Math.round(value * 100) / 100.0;
  }

  /** Rounds to thousandths. */
  public static double thousandths(double value) {
    return Math.round(value * 1000) / 1000.0;
  }
}
