package org.barmap.plan.order;

import java.util.List;
import java.util.Map;
import org.barmap.map.Navigation;
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
      boolean repeatsAfterJump,
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
        if (firstTime(finding, number, pieces.get(at), choices)) {
          signs.early(at);
        }
      }
    }
    jumps.forEach(
        (at, jump) -> {
          if (jump.repeats().orElse(repeatsAfterJump)) {
            segno(number, pieces, loops, jump.target(), signs, choices);
            ways(number, pieces, loops, jump, signs, choices);
          }
        });
  }

  /** A D.S. with repeats may land inside one: to its end, and then again or not. */
  private static void segno(
      WrittenNumber number,
      List<Piece> pieces,
      List<Loop> loops,
      int target,
      Signs signs,
      Choices choices) {
    for (Loop loop : List.copyOf(loops)) {
      boolean body = loop.parts().isEmpty() || !last(loop, target);
      if (loop.total() < 2 || target <= loop.start() || target > loop.end() || !body) {
        continue;
      }
      PlanFinding finding =
          PlanFinding.form(
              Severity.DOUBT,
              pieces.get(target).bar().id(),
              "segno-in-repeat",
              "The segno stands inside a repeat, and repeats are taken again after the D.S.; is"
                  + " this one? It is until that is said.");
      List<Choices.Way> ways =
          List.of(Choices.Way.of("repeated from its beginning"), Choices.Way.of("on, once"));
      String bar = name(number, pieces.get(target));
      if (choices.ask(new Choices.Asked(finding, Topic.REPEAT, bar, ways)) == 1) {
        signs.afterJump(loop, false);
      }
    }
  }

  /** With repeats after the jump a To Coda or a Fine in one is met more than once. */
  private static void ways(
      WrittenNumber number,
      List<Piece> pieces,
      List<Loop> loops,
      Jumps.Jump jump,
      Signs signs,
      Choices choices) {
    for (int i = jump.target(); i < pieces.size(); i++) {
      int at = i;
      boolean coda = at == jump.toCoda();
      boolean fine =
          jump.fine() && jump.toCoda() < 0 && Jumps.ends(pieces.get(at), Navigation.FINE);
      boolean met =
          loops.stream()
              .filter(l -> l.total() > 1 && l.holds(at))
              .anyMatch(l -> coda || closes(l, at));
      if ((!coda && !fine) || !met || pieces.get(at).endCut()) {
        continue;
      }
      String sign = coda ? "To Coda" : "Fine";
      PlanFinding finding =
          PlanFinding.form(
              Severity.DOUBT,
              pieces.get(at).bar().id(),
              coda ? "to-coda-in-repeat" : "fine-in-repeat",
              "The "
                  + sign
                  + " stands in a repeat that is taken again after the D.C. or D.S.; does it count"
                  + " the last time round, or the first? The last time until that is said.");
      if (firstTime(finding, number, pieces.get(at), choices)) {
        signs.early(at);
      }
    }
  }

  /**
   * Whether a sign in a repeat counts the first time it is met; the last time until that is said.
   */
  private static boolean firstTime(
      PlanFinding finding, WrittenNumber number, Piece piece, Choices choices) {
    return choices.ask(
            new Choices.Asked(
                finding,
                Topic.REPEAT,
                name(number, piece),
                List.of(Choices.Way.of("the last time round"), Choices.Way.of("the first time"))))
        == 1;
  }

  private static String name(WrittenNumber number, Piece piece) {
    return number.nameAt(Math.min(piece.slot(), number.slots() - 1));
  }

  private static boolean closes(Loop loop, int at) {
    return loop.parts().isEmpty()
        ? at == loop.end()
        : loop.parts().stream().anyMatch(p -> p.closes() && p.end() == at);
  }

  private static boolean last(Loop loop, int at) {
    return loop.parts().isEmpty()
        ? at == loop.end()
        : at >= loop.parts().get(loop.parts().size() - 1).start();
  }
}
