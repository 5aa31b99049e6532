package org.barmap.plan.order;

import java.util.OptionalDouble;

/**
 * How long one bar of a piece lasts, and how it is counted.
 *
 * @param quarters length of a whole bar in quarter notes; empty where no meter is known
 * @param beats beats the director shows in a whole bar; 0 where no meter is known
 * @param unit lower figure of the meter; 0 where none is known
 * @param perMinute quarters a minute; empty where no tempo is known
 */
public record Measure(OptionalDouble quarters, int beats, int unit, OptionalDouble perMinute) {

  /** Returns how many quarters one beat named in the meter's lower figure lasts. */
  public double quartersPerUnit() {
    return unit == 0 ? 0 : 4.0 / unit;
  }

  /** Returns the quarters of a whole bar, 0 where no meter is known. */
  public double quartersOrZero() {
    return quarters.orElse(0);
  }
}
