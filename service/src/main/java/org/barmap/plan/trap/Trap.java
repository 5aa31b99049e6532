package org.barmap.plan.trap;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.List;
import java.util.Locale;

/**
 * One thing that trips a player who doesn't know the show.
 *
 * @param number label of the number
 * @param bar id of the bar entry
 * @param page page index it stands on
 * @param kind what it is about
 * @param grave whoever misses it plays where nobody else does, or is silent where he should play
 * @param text in plain words, with the bar as a player calls it
 * @param unsure what nobody has looked at yet and it hangs on; may be empty
 */
public record Trap(
    String number,
    String bar,
    int page,
    Kind kind,
    boolean grave,
    String text,
    @JsonInclude(JsonInclude.Include.NON_EMPTY) List<String> unsure) {

  /** Takes a defensive copy. */
  public Trap {
    unsure = List.copyOf(unsure);
  }

  /** What a trap is about. */
  public enum Kind {
    /** Which bars come, and how often. */
    FORM,
    /** How bars are counted, how fast, in which meter and key, on what. */
    STATE,
    /** Where to come in after a long rest. */
    ENTRANCE,
    /** A page turn. */
    TURN,
    /** Another instrument, a mute, a string to tune. */
    HANDS,
    /** Whom to look at, what to listen for, what was missed before. */
    WATCH,
    /** What nobody has decided yet. */
    ASK;

    /** Returns the word the format uses. */
    @JsonValue
    public String word() {
      return name().toLowerCase(Locale.ROOT);
    }
  }
}
