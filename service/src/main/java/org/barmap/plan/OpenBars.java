package org.barmap.plan;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.barmap.plan.change.effect.Leaving;
import org.barmap.plan.change.term.Figures;
import org.barmap.plan.change.term.Leave;
import org.barmap.plan.change.term.Pass;
import org.barmap.plan.order.OpenStretch;
import org.barmap.plan.order.Performance;

/** Says where a number waits for the director: its vamps and safeties, its holds. */
final class OpenBars {
  private OpenBars() {}

  static List<RunSheet.Open> vamps(Performance performance) {
    List<RunSheet.Open> all = new ArrayList<>();
    for (OpenStretch open : performance.order().open()) {
      all.add(
          new RunSheet.Open(
              open.kind().word(),
              open.bars(),
              open.leaving().cue(),
              exit(open.leaving()),
              open.pass().map(Pass::says)));
    }
    return all;
  }

  private static Optional<String> exit(Leaving leaving) {
    return leaving
        .exitBar()
        .map(
            bar ->
                leaving
                    .exitBeat()
                    .map(b -> "on beat " + Figures.plain(b) + " of bar " + bar)
                    .orElse("after bar " + bar))
        .or(() -> leaving.leave().map(Leave::word));
  }

  /** Returns what comes on top of what is counted: "vamp 10-11", "hold 4". */
  static List<String> plus(Performance performance) {
    Set<String> plus = new LinkedHashSet<>();
    for (OpenStretch open : performance.order().open()) {
      plus.add(open.kind().word() + " " + open.bars());
    }
    plus.addAll(performance.played().plus());
    return List.copyOf(plus);
  }
}
