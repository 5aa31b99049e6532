package org.barmap.plan.pace;

import org.barmap.plan.change.term.Figures;

/**
 * How fast a piece goes: evenly, or from one tempo to another, changing evenly over its quarters.
 *
 * @param from quarters a minute at its start
 * @param to quarters a minute at its end
 */
public record Pace(double from, double to) {

  /** Returns an even tempo, in quarters a minute. */
  public static Pace even(double perMinute) {
    return new Pace(perMinute, perMinute);
  }

  /** Tells whether it changes on the way. */
  public boolean changes() {
    return Math.abs(to - from) > Figures.SAME;
  }

  /**
   * Returns the even tempo that takes as long, in quarters a minute: where the tempo is a straight
   * line over the quarters, the time is the integral of its inverse, so this is the logarithmic
   * mean of both ends.
   */
  public double mean() {
    return changes() ? (to - from) / Math.log(to / from) : from;
  }

  /** Returns the tempo at a share of the way, 0 for its start. */
  double at(double share) {
    return from + (to - from) * share;
  }
}
