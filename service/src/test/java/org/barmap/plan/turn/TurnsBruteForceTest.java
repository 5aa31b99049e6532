package org.barmap.plan.turn;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.plan.Books;
import org.barmap.plan.NumberPlan;
import org.barmap.plan.Plan;
import org.barmap.plan.PlanSettings;
import org.barmap.plan.Planner;
import org.barmap.plan.change.ShowChanges;
import org.junit.jupiter.api.Test;

/** Turns and their gaps against a tape of half beats, silent or not; seeded. */
class TurnsBruteForceTest {

  @Test
  void gapsAreWhatTheTapeSays() {
    Random random = new Random(31);
    int turns = 0;
    int shared = 0;
    for (int round = 0; round < 2_000; round++) {
      String written = form(random);
      BarMap map = Books.book(written);
      Plan plan = Planner.plan(map, ShowChanges.none(), PlanSettings.USUAL);
      List<Boolean> tape = new ArrayList<>();
      List<Integer> places = new ArrayList<>();
      List<String> names = new ArrayList<>();
      Bar before = null;
      for (NumberPlan.Entry entry : plan.numbers().get(0).order()) {
        Bar bar = map.bar(entry.bar()).orElseThrow();
        if (before != null && before.page() / 2 != bar.page() / 2) {
          places.add(tape.size());
          names.add(before.id() + ">" + bar.id());
        }
        play(bar, tape);
        before = bar;
      }
      assertThat(plan.turns())
          .as(written)
          .extracting(t -> t.leaves() + ">" + t.arrives())
          .containsExactlyElementsOf(names);
      for (int t = 0; t < places.size(); t++) {
        int at = places.get(t);
        int from = silentFrom(tape, at);
        int to = silentTo(tape, at);
        Turn turn = plan.turns().get(t);
        double leaves = 1 + 0.5 * (turn.sheets() - 1);
        // Turns around one rest share it; each has a part of it for its own, as long as its turn.
        double all = 0;
        double passed = 0;
        int sharing = 0;
        for (int k = 0; k < places.size(); k++) {
          if (silentFrom(tape, places.get(k)) == from && silentTo(tape, places.get(k)) == to) {
            double load = 1 + 0.5 * (plan.turns().get(k).sheets() - 1);
            passed += k < t ? load : 0;
            all += load;
            sharing++;
          }
        }
        double first = from + (to - from) * passed / all;
        double last = from + (to - from) * (passed + leaves) / all;
        double turned = Math.max(first, Math.min(last, at));
        near(written, turn.before().beats().orElseThrow(), (turned - first) / 2);
        near(written, turn.after().beats().orElseThrow(), (last - turned) / 2);
        near(written, turn.gap().beats().orElseThrow(), (last - first) / 2);
        near(written, turn.gap().seconds().orElseThrow(), (last - first) / 4);
        double seconds = (last - first) / 4 + 1e-6;
        double needed = leaves * (sharing > 1 ? 1.5 : 1);
        Verdict verdict =
            seconds >= 2 * needed ? Verdict.TIME : seconds >= needed ? Verdict.QUICK : Verdict.NONE;
        assertThat(turn.verdict()).as(written).isEqualTo(verdict);
        turns++;
        shared += sharing > 1 ? 1 : 0;
      }
    }
    assertThat(shared).isGreaterThan(100);
    assertThat(turns).isGreaterThan(3_000);
  }

  private static int silentFrom(List<Boolean> tape, int at) {
    int from = at;
    while (from > 0 && tape.get(from - 1)) {
      from--;
    }
    return from;
  }

  private static int silentTo(List<Boolean> tape, int at) {
    int to = at;
    while (to < tape.size() && tape.get(to)) {
      to++;
    }
    return to;
  }

  private static void near(String written, double is, double expected) {
    assertThat(is).as(written).isCloseTo(expected, org.assertj.core.data.Offset.offset(0.011));
  }

  private static void play(Bar bar, List<Boolean> tape) {
    int halves = bar.meter().orElseThrow().beats() * 2 * bar.count();
    double start = bar.silentStart().orElse(0.0) * 2;
    double end = halves - bar.silentEnd().orElse(0.0) * 2;
    for (int i = 0; i < halves; i++) {
      tape.add(bar.isRest() || i < start || i >= end);
    }
  }

  private static String form(Random random) {
    StringBuilder text = new StringBuilder();
    int page = 1;
    int bar = 1;
    int size = 4 + random.nextInt(20);
    int repeat = random.nextInt(size);
    int close = repeat + random.nextInt(size - repeat);
    for (int i = 0; i < size; i++) {
      int kind = random.nextInt(4);
      int count = kind == 0 ? 2 + random.nextInt(3) : 1;
      text.append(i == repeat ? "|:" : "").append(bar).append(i == close ? ":|" : "");
      if (i > 0 && random.nextInt(3) == 0) {
        page++;
      }
      text.append("@p").append(page);
      if (i == 0) {
        text.append("@4/4@w:q_=_120");
      } else if (random.nextInt(5) == 0) {
        text.append(random.nextBoolean() ? "@3/4" : "@4/4");
      }
      if (kind == 0) {
        text.append("@mr").append(count);
      } else if (kind == 1) {
        text.append("@rest");
      } else {
        text.append("@ss").append(random.nextInt(3) * 0.5);
        text.append("@se").append(random.nextInt(3) * 0.5);
      }
      text.append(' ');
      bar += count;
    }
    return text.toString();
  }
}
