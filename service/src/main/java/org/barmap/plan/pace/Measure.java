package org.barmap.plan.pace;

import java.util.Optional;
import java.util.OptionalDouble;

/**
 * How long one bar of a piece lasts, and how it is counted.
 *
 * @param quarters length of a whole bar in quarter notes; empty where no meter is known
 * @param beats beats the director shows in a whole bar; 0 where no meter is known
 * @param unit lower figure of the meter; 0 where none is known
 * @param pace how fast it goes; empty where no tempo is known
 * @param upbeat it is a pickup in a shorter meter of its own than the bar it leads to: so it is
 *     known how long it is, and it counts in time
 */
public record Measure(
    OptionalDouble quarters, int beats, int unit, Optional<Pace> pace, boolean upbeat) {

  /** Returns quarters a minute, as an even tempo that takes as long; empty where none is known. */
  public OptionalDouble perMinute() {
    return pace.map(p -> OptionalDouble.of(p.mean())).orElse(OptionalDouble.empty());
  }

  /** Returns the same measure at another pace. */
  Measure withPace(Optional<Pace> now) {
    return new Measure(quarters, beats, unit, now, upbeat);
  }

  /** Returns how many quarters one beat named in the meter's lower figure lasts. */
  public double quartersPerUnit() {
    return unit == 0 ? 0 : 4.0 / unit;
  }

  /** Returns the quarters of a whole bar, 0 where no meter is known. */
  public double quartersOrZero() {
    return quarters.orElse(0);
  }
}
