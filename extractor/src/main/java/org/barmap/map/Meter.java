package org.barmap.map;

/**
 * The meter in force in a bar.
 *
 * @param beats upper figure, at least 1
 * @param unit lower figure: 1, 2, 4, 8, 16 or 32
 * @param printed true only on the bar whose beginning shows the signature
 */
public record Meter(int beats, int unit, boolean printed) {

  /** Returns the length of one bar in quarter notes. */
  public double quarters() {
    return 4.0 * beats / unit;
  }

  /** Returns the same meter, marked as drawn here or not. */
  public Meter withPrinted(boolean nowPrinted) {
    return new Meter(beats, unit, nowPrinted);
  }

  /** Tells whether both stand for the same figures, drawn or not. */
  public boolean sameAs(Meter other) {
    return beats == other.beats && unit == other.unit;
  }
}
