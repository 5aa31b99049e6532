package org.barmap.bench;

import java.util.List;
import java.util.Map;
import org.barmap.edit.Editing;
import org.barmap.edit.Outcome;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.draft.Resettling;
import org.barmap.edit.kind.BarCorrection;
import org.barmap.map.Bar;
import org.barmap.map.Content;
import org.barmap.map.Finding;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;

/**
 * From a correction to what is open then, in a book of 144 pages that keeps what was read of it:
 * every bar nobody set is worked out anew. Each call corrects another rest of the same draft.
 */
@State(Scope.Benchmark)
public class SettleBench {

  private static final int PAGES = 144;
  private static final int WARM_UP = 20;

  private final Draft draft = Resettling.judged(Draft.of(MadeReadings.settled(PAGES)));
  private final List<Bar> rests =
      draft.map().bars().stream().filter(b -> b.content() == Content.MULTI_REST).toList();
  private int round;

  /** Gives a rest a bar more than it has, which the printed numbers around it speak against. */
  @Benchmark
  public List<Finding> open() {
    Bar rest = rests.get(Math.floorMod(37 * round++, rests.size()));
    Outcome outcome =
        Editing.correct(draft, new BarCorrection.SetCount(rest.id(), rest.count() + 1));
    return ((Outcome.Done) outcome).draft().open();
  }

  static void measure(Map<String, Object> figures, Rounds rounds) {
    SettleBench book = new SettleBench();
    figures.put("settlePages", PAGES);
    figures.put("settleBars", book.draft.map().writtenBars());
    figures.put("settleOpen", book.open().size());
    figures.put("settleMillis", Jmh.medianMillis(SettleBench.class, rounds, WARM_UP));
  }
}
