package org.barmap.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.barmap.exchange.musicxml.Scores;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Barline;
import org.barmap.map.Book;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Outline;
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
      Knobs knobs = seed % 4 == 0 ? Knobs.simple() : Knobs.wild();
      same("seed " + seed, RandomBooks.book(700_000 + seed, knobs).map());
    }
  }

  /** A heading may have no number: what is under it is written out as any, and nothing is lost. */
  @Test
  void numbersCalledTheSameOrNotAtAllKeepTheirBars() {
    List<Bar> bars = new ArrayList<>();
    for (int i = 1; i <= 8; i++) {
      boolean first = i <= 4;
      int at = first ? i : i - 4;
      bars.add(
          Bar.builder("b" + i, 1, 1, Outline.box(i * 10, 0, i * 10 + 10, 10))
              .number(at)
              .startBarline(first && at <= 2 ? Barline.REPEAT_START : Barline.NONE)
              .endBarline(
                  first && at >= 3 ? Barline.REPEAT_END : at == 4 ? Barline.FINAL : Barline.SINGLE)
              .build());
    }
    for (String label : List.of("", "7")) {
      List<MusicalNumber> numbers =
          List.of(number(label, "Bows", "b1", "b4"), number(label, "Exit", "b5", "b8"));
      BarMap map = BarMap.of(new Book("Made", "Bass"), List.of(), numbers, bars);
      BarMap playable = PlayableMap.of(map, true);
      assertThat(playable.numbers())
          .extracting(n -> playable.barsOf(n).size())
          .as("\"" + label + "\": %s", playable.bars())
          .containsExactly(played(map, 0), 4);
      assertThat(playable.barsOf(playable.numbers().get(1)))
          .extracting(Bar::number)
          .containsExactly(1, 2, 3, 4);
    }
  }

  private static MusicalNumber number(String label, String title, String first, String last) {
    return new MusicalNumber(label, title, Optional.of(first), Optional.of(last), false);
  }

  private static int played(BarMap map, int number) {
    return Planner.plan(map, ShowChanges.none(), PlanSettings.USUAL)
        .numbers()
        .get(number)
        .order()
        .size();
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
