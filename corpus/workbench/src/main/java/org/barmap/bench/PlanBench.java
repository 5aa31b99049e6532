package org.barmap.bench;

import java.util.Map;
import org.barmap.map.BarMap;
import org.barmap.plan.Plan;
import org.barmap.plan.PlanSettings;
import org.barmap.plan.Planner;
import org.barmap.plan.change.ShowChanges;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;

/** Planning a show: 3,000 bars, 200 changes. */
@State(Scope.Benchmark)
public class PlanBench {

  private static final int CHANGES = 200;
  private static final int WARM_UP = 20;

  private final BarMap map = MadeMap.of(MadeMap.USUAL);
  private final ShowChanges changes = MadeChanges.of(map, CHANGES);

  /** Plans the book once. */
  @Benchmark
  public Plan plan() {
    return Planner.plan(map, changes, PlanSettings.USUAL);
  }

  static void measure(Map<String, Object> figures, Rounds rounds) {
    PlanBench book = new PlanBench();
    figures.put("planBars", book.map.writtenBars());
    figures.put("planChanges", book.changes.changes().size());
    figures.put("planMillis", Jmh.medianMillis(PlanBench.class, rounds, WARM_UP));
  }
}
