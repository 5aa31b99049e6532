package org.barmap.plan.ready;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.barmap.plan.turn.Verdict;

/**
 * One change of what the player holds, in one pass.
 *
 * @param at id of the bar entry from which it is needed
 * @param kind instrument, bow, mute, extension or tuning
 * @param from what is put away; empty where unknown
 * @param to what is taken up
 * @param number label of the number
 * @param pass how often the bar has been played then
 * @param seconds time without notes around it; empty where no tempo is known, and between numbers
 * @param beats the same in beats, where meters are known
 * @param needed seconds that all that changes here needs
 * @param verdict whether there is time
 * @param because what is not known, where that leaves the verdict open
 * @param earlier id of the bar entry with the nearest earlier rest long enough to prepare it in
 * @param text the same in plain words
 * @param unsure what nobody has looked at yet and the time hangs on, "count 8 at bar 5, page 1";
 *     may be empty
 */
@JsonInclude(JsonInclude.Include.NON_ABSENT)
public record GetReady(
    String at,
    Kind kind,
    Optional<String> from,
    String to,
    String number,
    int pass,
    Optional<Double> seconds,
    Optional<Double> beats,
    double needed,
    Verdict verdict,
    Optional<String> because,
    Optional<String> earlier,
    String text,
    @JsonInclude(JsonInclude.Include.NON_EMPTY) List<String> unsure) {

  /** Takes a defensive copy. */
  public GetReady {
    unsure = List.copyOf(unsure);
  }

  /** Returns the same change in a rest that is too short for it and for a page turn. */
  public GetReady hurriedBy(String turn) {
    return with(verdict == Verdict.TIME ? Verdict.QUICK : verdict, text + " " + turn, unsure);
  }

  /** Returns the same change with what nobody has looked at yet. */
  public GetReady withUnsure(List<String> hangsOn) {
    return with(verdict, text, hangsOn);
  }

  private GetReady with(Verdict now, String says, List<String> hangsOn) {
    return new GetReady(
        at, kind, from, to, number, pass, seconds, beats, needed, now, because, earlier, says,
        hangsOn);
  }

  /** What changes. */
  public enum Kind {
    /** Another instrument. */
    INSTRUMENT,
    /** Bow or fingers. */
    BOW,
    /** Mute on or off. */
    MUTE,
    /** The low extension. */
    EXTENSION,
    /** A string tuned to another note. */
    RETUNE;

    /** Returns the word the format uses. */
    @JsonValue
    public String word() {
      return name().toLowerCase(Locale.ROOT);
    }
  }
}
