package org.barmap.plan;

import java.util.ArrayList;
import java.util.List;
import org.barmap.plan.order.Performance;
import org.barmap.plan.piece.PlayedPiece;
import org.barmap.plan.ready.Hands;

/** Says what is held in a number, bar by bar as it is played. */
final class HandsTold {
  private HandsTold() {}

  /**
   * Returns where what is held becomes something else, in the order of play.
   *
   * @param hands what is held at each piece, in reading order
   */
  static List<NumberPlan.Held> of(Performance performance, List<Hands> hands) {
    List<NumberPlan.Held> told = new ArrayList<>();
    int bar = 0;
    for (PlayedPiece step : performance.order().steps()) {
      Hands now = hands.get(step.index());
      if (told.isEmpty() || !told.get(told.size() - 1).held().equals(now)) {
        told.add(new NumberPlan.Held(bar, now));
      }
      bar += step.piece().count();
    }
    boolean known = told.stream().anyMatch(h -> h.held().known());
    return known ? told : List.of();
  }
}
