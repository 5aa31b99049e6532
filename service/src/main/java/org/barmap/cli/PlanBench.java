package org.barmap.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.MusicalNumber;
import org.barmap.plan.PlanSettings;
import org.barmap.plan.Planner;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.change.kind.Cut;
import org.barmap.plan.change.kind.Meta;
import org.barmap.plan.change.kind.Safety;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.kind.Tempo;
import org.barmap.plan.change.kind.Vamp;
import org.barmap.plan.change.term.Leave;

/** Measures planning: 3,000 bars, 200 changes, the median of 41 plans after 20 to warm up. */
final class PlanBench {

  private static final int BARS = 3000;
  private static final int CHANGES = 200;
  private static final int WARM_UP = 20;
  private static final int ROUNDS = 41;

  private PlanBench() {}

  static void measure(Map<String, Object> figures) {
    BarMap map = MadeBook.of(BARS);
    ShowChanges changes = changes(map);
    for (int i = 0; i < WARM_UP; i++) {
      Planner.plan(map, changes, PlanSettings.USUAL);
    }
    long[] nanos = new long[ROUNDS];
    for (int i = 0; i < ROUNDS; i++) {
      long start = System.nanoTime();
      Planner.plan(map, changes, PlanSettings.USUAL);
      nanos[i] = System.nanoTime() - start;
    }
    figures.put("planBars", map.writtenBars());
    figures.put("planChanges", changes.changes().size());
    figures.put("planMillis", BenchCommand.medianMillis(nanos));
  }

  private static ShowChanges changes(BarMap map) {
    Random random = new Random(11);
    List<ShowChange> changes = new ArrayList<>();
    while (changes.size() < CHANGES) {
      MusicalNumber number = map.numbers().get(random.nextInt(map.numbers().size()));
      List<Bar> bars = map.barsOf(number);
      int first = 1 + random.nextInt(Math.max(1, bars.get(bars.size() - 1).number() - 4));
      String from = Integer.toString(first);
      String to = Integer.toString(first + random.nextInt(3));
      Meta meta = Meta.of("c" + changes.size());
      changes.add(
          switch (random.nextInt(4)) {
            case 0 -> new Cut(meta, number.label(), from, to);
            case 1 -> new Vamp(meta, number.label(), from, to, Leave.END_OF_PASS);
            case 2 -> new Safety(meta, number.label(), from, to);
            default -> new Tempo(meta, number.label(), from, "1/4", 120);
          });
    }
    return new ShowChanges(changes);
  }
}
