package org.barmap.plan.piece;

import java.util.Optional;
import java.util.OptionalInt;
import org.barmap.plan.change.Addresses;
import org.barmap.plan.change.Found;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.effect.Rounds;

/** Where bars held open are left the last time round. */
final class Exit {
  private Exit() {}

  /** Returns the slot of the bar that a change names for that; empty where none of its bars is. */
  static OptionalInt of(WrittenNumber number, Span span) {
    Optional<String> said = span.effects().rounds().map(Rounds::leaving).flatMap(l -> l.exitBar());
    if (said.isEmpty() || !(new Addresses(number).find(said.get()) instanceof Found.At at)) {
      return OptionalInt.empty();
    }
    int slot = at.place().slot();
    return slot >= span.from() && slot <= span.to() ? OptionalInt.of(slot) : OptionalInt.empty();
  }
}
