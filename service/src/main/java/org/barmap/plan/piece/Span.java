package org.barmap.plan.piece;

import java.util.Optional;
import java.util.OptionalDouble;
import org.barmap.plan.change.effect.Effects;
import org.barmap.plan.change.kind.ShowChange;

/**
 * A change with the bars it names looked up.
 *
 * @param change what is to be done
 * @param effects what that does
 * @param from slot of its first bar; of a bar that is added the slot it comes after
 * @param to slot of its last bar, at least {@code from}
 * @param fromBeat first beat, where one is named; beats are counted in the meter's lower figure
 * @param toBeat last beat, where one is named
 * @param fromAdded the label of its first bar, where that is added by another change
 * @param toAdded the label of its last bar, where that is added by another change
 */
public record Span(
    ShowChange change,
    Effects effects,
    int from,
    int to,
    OptionalDouble fromBeat,
    OptionalDouble toBeat,
    Optional<String> fromAdded,
    Optional<String> toAdded) {

  /** Makes a span of written bars. */
  public Span(
      ShowChange change,
      Effects effects,
      int from,
      int to,
      OptionalDouble fromBeat,
      OptionalDouble toBeat) {
    this(change, effects, from, to, fromBeat, toBeat, Optional.empty(), Optional.empty());
  }

  /** Returns the same change of fewer bars. */
  public Span within(int first, int last) {
    return new Span(change, effects, first, last, fromBeat, toBeat, fromAdded, toAdded);
  }
}
