package org.barmap.plan.turn;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonProperty;
import java.util.List;
import java.util.Optional;
import org.barmap.plan.pace.Length;

/**
 * One page turn in one pass.
 *
 * @param fromPage page that is left
 * @param toPage page that is come to
 * @param leaves id of the last bar entry before the turn
 * @param arrives id of the first bar entry after it
 * @param pass how often the bar that is left has been played then
 * @param direction forward or back
 * @param sheets leaves to turn at once
 * @param number label of the number the bar that is left belongs to
 * @param nextNumber label of the number that is come to, when it is another one
 * @param gap the stretch without notes around it
 * @param before the part of the gap before it
 * @param after the part of the gap after it
 * @param verdict whether there is time
 * @param because what is not known, where that leaves the verdict open
 * @param mark what to write at the turn, when it needs a mark and none is printed
 * @param advice what to do, the chosen one first, then the others by cost
 * @param alsoHere what else the hands have to do in the same gap: a change of instrument or bow
 * @param next ids of the first bar entries after the turn, to be shown as a crop
 * @param unsure what nobody has looked at yet and it hangs on, "count 8 at bar 5, page 1"; may be
 *     empty
 * @param again where it lies in a vamp or a safety and is made as often as that is gone round:
 *     "each time round the vamp 9-12"
 */
@JsonInclude(JsonInclude.Include.NON_ABSENT)
public record Turn(
    int fromPage,
    int toPage,
    String leaves,
    String arrives,
    int pass,
    Direction direction,
    int sheets,
    String number,
    Optional<String> nextNumber,
    Length gap,
    Length before,
    Length after,
    Verdict verdict,
    Optional<String> because,
    Optional<TurnMark> mark,
    List<Advice> advice,
    @JsonInclude(JsonInclude.Include.NON_EMPTY) List<String> alsoHere,
    List<String> next,
    @JsonInclude(JsonInclude.Include.NON_EMPTY) List<String> unsure,
    Optional<String> again) {

  /** Takes defensive copies. */
  public Turn {
    advice = List.copyOf(advice);
    alsoHere = List.copyOf(alsoHere);
    next = List.copyOf(next);
    unsure = List.copyOf(unsure);
  }

  /** Returns on which side of it the player is free, in words; empty when on neither. */
  @JsonProperty("free")
  public Optional<String> free() {
    return FreeBeats.around(before, after);
  }

  /** Returns the same turn with what else has to be done there. */
  public Turn withAlsoHere(List<String> things) {
    return with(verdict, mark, things, unsure);
  }

  /** Returns the same turn in a rest that is too short for it and for the hands' other work. */
  public Turn hurriedBy(List<String> things) {
    Verdict hurried = verdict == Verdict.TIME ? Verdict.QUICK : verdict;
    return with(hurried, mark.map(m -> m == TurnMark.TIME ? TurnMark.VS : m), things, unsure);
  }

  /** Returns the same turn with what nobody has looked at yet. */
  public Turn withUnsure(List<String> hangsOn) {
    return with(verdict, mark, alsoHere, hangsOn);
  }

  private Turn with(
      Verdict now, Optional<TurnMark> written, List<String> things, List<String> hangsOn) {
    return new Turn(
        fromPage,
        toPage,
        leaves,
        arrives,
        pass,
        direction,
        sheets,
        number,
        nextNumber,
        gap,
        before,
        after,
        now,
        because,
        written,
        advice,
        things,
        next,
        hangsOn,
        again);
  }

  /** Which way the page goes. */
  public enum Direction {
    /** Towards the end of the book. */
    @JsonProperty("forward")
    FORWARD,
    /** Towards its beginning. */
    @JsonProperty("back")
    BACK
  }
}
