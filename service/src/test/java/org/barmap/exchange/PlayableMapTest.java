package org.barmap.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.barmap.exchange.musicxml.Scores;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.plan.NumberPlan;
import org.barmap.plan.PlanSettings;
import org.barmap.plan.Planner;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.reference.books.Knobs;
import org.barmap.plan.reference.books.RandomBooks;
import org.junit.jupiter.api.Test;

/** A book written for programs that play signs has the same bars in the same order. */
class PlayableMapTest {
  private static final int BOOKS = Integer.getInteger("barmap.playable", 300);

  @Test
  void theSameBarsInTheSameOrder() throws Exception {
    same("Saltmarsh", Scores.saltmarsh());
    for (int seed = 0; seed < BOOKS; seed++) {
      Knobs knobs = seed % 4 == 0 ? Knobs.simple() : Knobs.ordinary();
      same("seed " + seed, RandomBooks.book(700_000 + seed, knobs).map());
    }
  }

  private static void same(String what, BarMap map) {
    String order = order(map);
    assertThat(order(signs(PlayableMap.of(map, false)))).as(what + ", whole").isEqualTo(order);
    assertThat(order(signs(PlayableMap.of(map, true)))).as(what + ", alone").isEqualTo(order);
  }

  /** What a program that reads no words is left with. */
  private static BarMap signs(BarMap map) {
    return map.withBars(
        map.bars().stream().map(b -> b.toBuilder().words(List.of()).build()).toList());
  }

  /** Every single bar as it is played, by what it is called. */
  private static String order(BarMap map) {
    Map<String, Bar> bars = map.barsById();
    List<String> order = new ArrayList<>();
    for (NumberPlan number : Planner.plan(map, ShowChanges.none(), PlanSettings.USUAL).numbers()) {
      order.add("No. " + number.label());
      for (NumberPlan.Entry entry : number.order()) {
        Bar bar = Objects.requireNonNull(bars.get(entry.bar()));
        int from = entry.from().orElse(1) - 1;
        for (int k = 0; k < entry.bars().orElse(bar.count()); k++) {
          order.add(bar.label().orElse("") + (bar.number() + from + k));
        }
      }
    }
    return String.join(" ", order);
  }
}
