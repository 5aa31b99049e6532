package org.barmap.plan.laws;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.data.Offset.offset;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.plan.NumberPlan;
import org.barmap.plan.Plan;
import org.barmap.plan.PlanSettings;
import org.barmap.plan.Planner;
import org.barmap.plan.RunSheet;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.reference.books.Feature;
import org.barmap.plan.reference.books.Knobs;
import org.barmap.plan.reference.books.RandomBooks;
import org.barmap.plan.turn.Turn;
import org.junit.jupiter.api.Test;

/**
 * What holds for the times of every plan: each pass of each turn has a gap of its own, and what is
 * played adds up. Beats are counted here from the order and the pace alone.
 */
class TurnLawsTest {
  /** More are tried with {@code -Dbarmap.laws.books=2000}. */
  private static final int BOOKS = Integer.getInteger("barmap.laws.books", 150);

  /** Lengths are written to a hundredth; some are sums of a few. */
  private static final double ROUNDED = 0.05;

  private record Night(Plan plan, Map<String, Bar> bars, String what) {}

  private static List<Night> nights() {
    Knobs knobs = Knobs.full().with(0.1, Feature.PAGES).with(0.3, Feature.RESTS);
    List<Night> nights = new ArrayList<>();
    for (int seed = 0; seed < BOOKS; seed++) {
      BarMap map = RandomBooks.book(seed, knobs).map();
      if (WrittenNumber.all(map).stream().anyMatch(n -> n.slots() > 0 && !n.label().isEmpty())) {
        List<ShowChange> some = new AnyChange(new Random(seed), map).some("c", 3);
        Plan plan = Planner.plan(map, new ShowChanges(some), PlanSettings.USUAL);
        String what = seed + ": " + some + some.stream().map(c -> " kind=" + c.kind()).toList();
        nights.add(
            new Night(plan, map.bars().stream().collect(Collectors.toMap(Bar::id, b -> b)), what));
      }
    }
    return nights;
  }

  /** Turns in one rest share it: their gaps together are no longer than it is. */
  @Test
  void eachPassOfEachTurnHasItsOwnGap() {
    int shared = 0;
    for (Night night : nights()) {
      for (NumberPlan number : night.plan().numbers()) {
        Map<Integer, List<Turn>> inOneRest = new TreeMap<>();
        for (Turn turn : night.plan().turns()) {
          if (turn.number().equals(number.label()) && turn.nextNumber().isEmpty()) {
            int rest = restAt(number, place(number, turn), night.bars());
            inOneRest.computeIfAbsent(rest, k -> new ArrayList<>()).add(turn);
          }
        }
        for (Map.Entry<Integer, List<Turn>> rest : inOneRest.entrySet()) {
          int end = Math.max(0, rest.getKey());
          while (rest.getKey() >= 0
              && end < number.order().size()
              && silent(number, end, night.bars())) {
            end++;
          }
          OptionalDouble free = beats(number, Math.max(0, rest.getKey()), end, night.bars());
          // At the edges of a number the rest may go on in its neighbours.
          boolean inside = rest.getKey() > 0 && end < number.order().size();
          if (inside && free.isPresent()) {
            shared += rest.getValue().size() > 1 ? 1 : 0;
            double gaps =
                rest.getValue().stream().mapToDouble(t -> t.gap().beats().orElse(0.0)).sum();
            assertThat(gaps)
                .as(() -> night.what() + " turns in No. " + number.label())
                .isLessThanOrEqualTo(free.getAsDouble() + ROUNDED);
          }
        }
      }
    }
    assertThat(shared).isPositive();
  }

  /** Returns where the rest around a turn begins; -1 where there is none. */
  private static int restAt(NumberPlan number, int place, Map<String, Bar> bars) {
    if (place < 0 || place >= number.order().size()) {
      return -1;
    }
    int from = place;
    while (from > 0 && silent(number, from - 1, bars)) {
      from--;
    }
    return from < place || silent(number, place, bars) ? from : -1;
  }

  private static boolean silent(NumberPlan number, int at, Map<String, Bar> bars) {
    NumberPlan.Entry entry = number.order().get(at);
    if (entry.inserted().isPresent()) {
      return entry.added().flatMap(NumberPlan.Added::content).filter("rest"::equals).isPresent();
    }
    boolean rest = Objects.requireNonNull(bars.get(entry.bar())).isRest();
    return rest || entry.silent().isPresent();
  }

  @Test
  void theBeatsOfANumberAreThoseOfItsBars() {
    int known = 0;
    for (Night night : nights()) {
      if (night.what().contains("kind=gp")) {
        continue; // a general pause has no beats
      }
      for (NumberPlan number : night.plan().numbers()) {
        OptionalDouble sum = beats(number, 0, number.order().size(), night.bars());
        boolean pickup =
            number.order().stream()
                .map(e -> night.bars().get(e.bar()))
                .anyMatch(b -> b.number() == 0);
        if (sum.isPresent() && !pickup && number.played().beats().isPresent()) {
          known++;
          assertThat(number.played().beats().get())
              .as(() -> night.what() + " No. " + number.label())
              .isCloseTo(sum.getAsDouble(), offset(ROUNDED));
        }
      }
    }
    assertThat(known).isGreaterThan(BOOKS / 10);
  }

  @Test
  void theNightIsAsLongAsItsNumbers() {
    for (Night night : nights()) {
      double sum = 0;
      for (RunSheet line : night.plan().runSheet()) {
        boolean cut = line.state() == NumberPlan.State.CUT;
        sum +=
            cut
                ? 0
                : line.seconds()
                    .orElseGet(() -> line.known().map(NumberPlan.KnownTime::seconds).orElse(0.0));
      }
      assertThat(night.plan().night().seconds()).as(night.what()).isCloseTo(sum, offset(ROUNDED));
    }
  }

  /** How many entries of the order come before a turn: up to the pass of the bar it leaves. */
  private static int place(NumberPlan number, Turn turn) {
    int place = -1;
    for (int i = 0; i < number.order().size(); i++) {
      NumberPlan.Entry entry = number.order().get(i);
      boolean next =
          i + 1 < number.order().size() && number.order().get(i + 1).bar().equals(turn.arrives());
      if (next && entry.bar().equals(turn.leaves()) && entry.pass() == turn.pass()) {
        place = i + 1;
      }
    }
    return place;
  }

  private static OptionalDouble beats(NumberPlan number, int from, int to, Map<String, Bar> bars) {
    double sum = 0;
    int single = 0;
    for (int i = 0; i < to; i++) {
      NumberPlan.Entry entry = number.order().get(i);
      Bar bar = Objects.requireNonNull(bars.get(entry.bar()));
      int count = entry.bars().orElse(entry.inserted().isPresent() ? 1 : bar.count());
      if (i >= from) {
        for (int k = 0; k < count; k++) {
          int shown = shown(number, single + k);
          if (shown == 0) {
            return OptionalDouble.empty();
          }
          sum += shown;
        }
        double out = entry.beatsCut().orElse(0.0);
        if (out > 0) {
          if (bar.meter().isEmpty()) {
            return OptionalDouble.empty();
          }
          sum -= out * shown(number, single) / bar.meter().get().beats();
        }
      }
      single += count;
    }
    return OptionalDouble.of(sum);
  }

  private static int shown(NumberPlan number, int single) {
    int beats = 0;
    for (NumberPlan.Stretch stretch : number.pace()) {
      beats = stretch.from() <= single ? stretch.beats() : beats;
    }
    return beats;
  }
}
