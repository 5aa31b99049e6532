package org.barmap.plan.words.earlier;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.words.grammar.Bars;

/** Tells changes of one number apart by the order in which they come. */
final class Placed {
  private Placed() {}

  /**
   * Returns the one that "the second cut" is, where it is the second as one plays and as it was
   * said; all of them where that is not the same, none where there is only one.
   */
  static List<ShowChange> told(Reference ref, List<ShowChange> those, Optional<Bars> bars) {
    if (those.size() == 1 && ref.which().matches("second|third")) {
      return List.of(); // nobody said another one
    }
    if (ref.which().isEmpty() || those.size() < 2 || bars.isEmpty()) {
      return those;
    }
    List<ShowChange> played =
        those.stream().sorted(Comparator.comparingInt(c -> slot(c, bars.get()))).toList();
    int at =
        switch (ref.which()) {
          case "first" -> 0;
          case "second" -> 1;
          case "third" -> 2;
          default -> those.size() - 1;
        };
    boolean same = at < those.size() && played.get(at).equals(those.get(at));
    return same ? List.of(those.get(at)) : those;
  }

  private static int slot(ShowChange change, Bars bars) {
    return change.where().map(w -> bars.slot(w.first()).orElse(0)).orElse(0);
  }
}
