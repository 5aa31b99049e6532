package org.barmap.plan.ready;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import java.util.Optional;

/**
 * What the player says about the chair.
 *
 * @param inHand the instrument in hand before the first number, where the book doesn't tell it
 * @param doublings the instruments of the chair, each on a stand of its own; may be empty
 * @param seconds how long getting ready takes, beside taking up an instrument
 */
@JsonInclude(JsonInclude.Include.NON_EMPTY)
public record Chair(Optional<String> inHand, List<String> doublings, ReadyTimes seconds) {

  /** Nothing is said. */
  public static final Chair USUAL = new Chair(Optional.empty(), List.of(), ReadyTimes.USUAL);

  /** Takes a defensive copy; what is absent is not said. */
  public Chair {
    inHand = inHand == null ? Optional.empty() : inHand;
    doublings = doublings == null ? List.of() : List.copyOf(doublings);
    seconds = seconds == null ? ReadyTimes.USUAL : seconds;
  }
}
