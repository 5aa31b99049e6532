package org.barmap.plan.turn;

import java.util.Optional;
import org.barmap.plan.change.say.Saying;
import org.barmap.plan.change.term.Figures;
import org.barmap.plan.pace.Length;

/** Says on which side of a turn the player is free: "2 beats free before, 1 after". */
final class FreeBeats {

  private FreeBeats() {}

  /** Returns the words; empty when nothing is free, or when it is not known how long it is. */
  static Optional<String> around(Length before, Length after) {
    if (before.beats().isEmpty() || after.beats().isEmpty()) {
      return Optional.empty();
    }
    double first = before.beats().get();
    double then = after.beats().get();
    if (first == 0 && then == 0) {
      return Optional.empty();
    }
    if (first == 0) {
      return Optional.of("nothing free before, " + Saying.many(then, "beat") + " after");
    }
    return Optional.of(
        Saying.many(first, "beat")
            + " free before, "
            + (then == 0 ? "none" : Figures.rough(then))
            + " after");
  }
}
