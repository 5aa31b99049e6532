package org.barmap.plan.trap;

import java.util.List;
import org.barmap.plan.ready.GetReady;
import org.barmap.plan.turn.Advice;
import org.barmap.plan.turn.Turn;
import org.barmap.plan.turn.Verdict;

/** Turns and changes of instrument for which there is hardly time. */
final class TurnTraps {
  private TurnTraps() {}

  static void turns(TrapList traps, List<Turn> turns) {
    for (Turn turn : turns) {
      boolean hard = turn.verdict() == Verdict.NONE || turn.verdict() == Verdict.QUICK;
      if (!hard && (turn.mark().isEmpty() || turn.verdict() == Verdict.TIME)) {
        continue;
      }
      String leaves = traps.entry(turn.leaves()).map(traps::name).orElse("");
      String time =
          switch (turn.verdict()) {
            case NONE -> "no time";
            case QUICK -> "turn fast";
            default -> "time not known";
          };
      String text =
          "Page "
              + turn.fromPage()
              + " to "
              + turn.toPage()
              + (leaves.isEmpty() ? "" : ", after bar " + leaves)
              + ": "
              + time
              + turn.advice().stream().findFirst().map(Advice::says).map(s -> ". " + s).orElse("");
      traps.add(
          turn.leaves(),
          Trap.Kind.TURN,
          turn.verdict() == Verdict.NONE,
          text.replaceFirst("\\.$", ""),
          turn.unsure());
    }
  }

  /** The bow is taken up or laid down as printed on every page; other things need the player. */
  static void hands(TrapList traps, List<GetReady> ready) {
    for (GetReady change : ready) {
      boolean hard = change.verdict() == Verdict.NONE || change.verdict() == Verdict.QUICK;
      if (hard && change.kind() != GetReady.Kind.BOW) {
        String bar = traps.entry(change.at()).map(traps::name).orElse("");
        traps.add(
            change.at(),
            Trap.Kind.HANDS,
            change.verdict() == Verdict.NONE && change.kind() == GetReady.Kind.INSTRUMENT,
            "Bar " + bar + ": " + change.text().replaceFirst("\\.$", ""),
            List.of());
      }
    }
  }
}
