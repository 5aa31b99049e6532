package org.barmap.plan.ready;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.Optional;
import org.barmap.plan.change.term.InstrumentNames;

/**
 * How long this player takes to get ready, in seconds; what is absent is as usual. Assumptions,
 * none is measured: bow 2 (nothing is put away), mute 1 (it sits on the strings), a reed instrument
 * and a string to retune as long as any instrument.
 *
 * @param bow from bow to fingers and back
 * @param mute on or off
 * @param reed taking up an instrument with a reed
 * @param retune tuning a string to another note
 * @param putDown putting down the instrument in hand before another is taken up; 0 as usual, where
 *     taking up means both
 */
@JsonInclude(JsonInclude.Include.NON_ABSENT)
public record ReadyTimes(
    Optional<Double> bow,
    Optional<Double> mute,
    Optional<Double> reed,
    Optional<Double> retune,
    Optional<Double> putDown) {

  /** As usual. */
  public static final ReadyTimes USUAL =
      new ReadyTimes(
          Optional.empty(), Optional.empty(), Optional.empty(), Optional.empty(), Optional.empty());

  /** Seconds that are some time, if less than is needed. */
  static final double ANY = 0.01;

  private static final double USUAL_BOW = 2;
  private static final double USUAL_MUTE = 1;
  private static final double LEAST = 0.1;
  private static final double MOST = 300;

  /** Checks the ranges. */
  public ReadyTimes {
    bow = checked(bow);
    mute = checked(mute);
    reed = checked(reed);
    retune = checked(retune);
    putDown = checked(putDown);
  }

  private static Optional<Double> checked(Optional<Double> seconds) {
    if (seconds == null) {
      return Optional.empty();
    }
    if (seconds.filter(s -> !(s >= LEAST && s <= MOST)).isPresent()) {
      throw new IllegalArgumentException("getting ready takes 0.1 to 300 s, not " + seconds.get());
    }
    return seconds;
  }

  /**
   * Returns what a change needs, in seconds.
   *
   * @param from what is in hand; empty where nothing is known
   * @param takeUp what taking up an instrument needs
   */
  double needed(GetReady.Kind kind, String from, String to, double takeUp) {
    return switch (kind) {
      case INSTRUMENT -> (from.isEmpty() ? 0 : putDown.orElse(0.0)) + taken(to, takeUp);
      case BOW -> bow.orElse(USUAL_BOW);
      case MUTE -> mute.orElse(USUAL_MUTE);
      case EXTENSION, RETUNE -> retune.orElse(takeUp);
    };
  }

  private double taken(String to, double takeUp) {
    return InstrumentNames.chair(to).filter("reed"::equals).isPresent()
        ? reed.orElse(takeUp)
        : takeUp;
  }
}
