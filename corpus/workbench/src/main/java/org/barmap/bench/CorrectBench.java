package org.barmap.bench;

import org.barmap.edit.Editing;
import org.barmap.edit.Outcome;
import org.barmap.edit.draft.Draft;
import org.barmap.map.BarMap;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;

/** A correction in a book of 3,000 bars, computed and not kept; each follows the one before. */
@State(Scope.Benchmark)
public class CorrectBench {

  private static final int WARM_UP = 41;

  private final BarMap map = MadeMap.of(MadeMap.USUAL);
  private Draft draft = Draft.of(map);
  private int round = -WARM_UP;

  /** Corrects one bar more. */
  @Benchmark
  public Draft correct() {
    Outcome outcome = Editing.correct(draft, MadeMap.correction(map, round++));
    draft = ((Outcome.Done) outcome).draft();
    return draft;
  }

  static double medianMillis(Rounds rounds) {
    return Jmh.medianMillis(CorrectBench.class, rounds, WARM_UP);
  }
}
