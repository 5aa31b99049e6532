package org.barmap.plan.order;

import java.util.List;
import java.util.Map;
import org.barmap.map.Severity;
import org.barmap.plan.change.Choices;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.Question.Topic;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.piece.Piece;

/**
 * Asks about a D.C. or D.S. inside a repeat, before its end or its last ending: taken the last time
 * round or the first time it is met.
 */
final class JumpsInside {
  private JumpsInside() {}

  static void ask(
      WrittenNumber number,
      List<Piece> pieces,
      List<Loop> loops,
      Map<Integer, Jumps.Jump> jumps,
      Signs signs,
      Choices choices) {
    for (int at : jumps.keySet().stream().sorted().toList()) {
      boolean inside = loops.stream().anyMatch(l -> l.total() > 1 && l.holds(at) && !last(l, at));
      if (inside && !pieces.get(at).endCut()) {
        PlanFinding finding =
            PlanFinding.form(
                Severity.DOUBT,
                pieces.get(at).bar().id(),
                "jump-in-repeat",
                "A D.C. or D.S. stands inside a repeat; is it taken the last time round, or the"
                    + " first time you come to it? The last time until that is said.");
        Choices.Asked asked =
            new Choices.Asked(
                finding,
                Topic.REPEAT,
                number.nameAt(Math.min(pieces.get(at).slot(), number.slots() - 1)),
                List.of(Choices.Way.of("the last time round"), Choices.Way.of("the first time")));
        if (choices.ask(asked) == 1) {
          signs.early(at);
        }
      }
    }
  }

  private static boolean last(Loop loop, int at) {
    return loop.parts().isEmpty()
        ? at == loop.end()
        : at >= loop.parts().get(loop.parts().size() - 1).start();
  }
}
