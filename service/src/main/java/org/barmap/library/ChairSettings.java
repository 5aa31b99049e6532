package org.barmap.library;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import java.util.Optional;

/**
 * What a book's player holds, and how long changing it takes; what is absent is as usual.
 *
 * @param inHand the instrument in hand before the first number, where the book doesn't tell it
 * @param doublings the instruments of the chair
 * @param bowSeconds from bow to fingers and back
 * @param muteSeconds a mute on or off
 * @param reedSeconds taking up an instrument with a reed
 * @param retuneSeconds tuning a string to another note
 * @param putDownSeconds putting down an instrument before another is taken up
 */
@JsonInclude(JsonInclude.Include.NON_EMPTY)
public record ChairSettings(
    Optional<String> inHand,
    List<String> doublings,
    Optional<Double> bowSeconds,
    Optional<Double> muteSeconds,
    Optional<Double> reedSeconds,
    Optional<Double> retuneSeconds,
    Optional<Double> putDownSeconds) {

  static final double LEAST_SECONDS = 0.1;
  static final double MOST_SECONDS = 120;
  private static final int MOST_DOUBLINGS = 20;
  private static final int MOST_LETTERS = 60;

  /** Everything as usual. */
  public static final ChairSettings USUAL =
      new ChairSettings(
          Optional.empty(),
          List.of(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty());

  /** Reads what is absent as not said. */
  public ChairSettings {
    inHand = inHand == null ? Optional.empty() : inHand.filter(i -> !i.isBlank());
    doublings = doublings == null ? List.of() : List.copyOf(doublings);
    bowSeconds = bowSeconds == null ? Optional.empty() : bowSeconds;
    muteSeconds = muteSeconds == null ? Optional.empty() : muteSeconds;
    reedSeconds = reedSeconds == null ? Optional.empty() : reedSeconds;
    retuneSeconds = retuneSeconds == null ? Optional.empty() : retuneSeconds;
    putDownSeconds = putDownSeconds == null ? Optional.empty() : putDownSeconds;
  }

  /** Tells whether every name is short enough to be one. */
  boolean isNamed() {
    return doublings.size() <= MOST_DOUBLINGS
        && doublings.stream().allMatch(ChairSettings::isName)
        && inHand.stream().allMatch(ChairSettings::isName);
  }

  private static boolean isName(String name) {
    return !name.isBlank() && name.length() <= MOST_LETTERS;
  }
}
