package org.barmap.plan.turn;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.barmap.plan.pace.Gap;
import org.barmap.plan.pace.Length;
import org.junit.jupiter.api.Test;

/** The choice of turns against every possible combination; seeded. */
class ChooserTest {

  @Test
  void noCombinationOfChoicesIsCheaper() {
    Random random = new Random(5);
    Judge judge = new Judge(TurnSettings.USUAL);
    int shared = 0;
    for (int round = 0; round < 2_000; round++) {
      List<Gap> gaps = gaps(random);
      List<List<Candidate>> turns = turns(random, gaps);
      List<Integer> chosen = new Chooser(gaps, judge).choose(turns);
      double cost = cost(gaps, judge, turns, chosen);
      double best = cheapest(gaps, judge, turns, new ArrayList<>());
      assertThat(cost).isEqualTo(best).isLessThan(Double.POSITIVE_INFINITY);
      for (int t = 1; t < turns.size(); t++) {
        int a = turns.get(t - 1).get(chosen.get(t - 1)).gap();
        shared += a >= 0 && a == turns.get(t).get(chosen.get(t)).gap() ? 1 : 0;
      }
    }
    assertThat(shared).as("choices that share a gap").isGreaterThan(50);
  }

  private static List<Gap> gaps(Random random) {
    List<Gap> gaps = new ArrayList<>();
    double at = 0;
    for (int g = 0; g < 4; g++) {
      double from = at + 1 + random.nextInt(6);
      double to = from + 1 + random.nextInt(10);
      Length length = new Length(0, Optional.of(to - from), Optional.of((to - from) / 2));
      gaps.add(new Gap(from, to, 0, 0, length, false));
      at = to;
    }
    return gaps;
  }

  private static List<List<Candidate>> turns(Random random, List<Gap> gaps) {
    List<List<Candidate>> turns = new ArrayList<>();
    double at = 0;
    for (int t = 0; t < 4; t++) {
      at += random.nextInt(12);
      List<Candidate> candidates = new ArrayList<>();
      double load = random.nextInt(4) == 0 ? 1.5 : 1;
      for (int g = 0; g < gaps.size(); g++) {
        Gap gap = gaps.get(g);
        if (random.nextInt(3) > 0
            && new Judge(TurnSettings.USUAL).verdict(gap, load) != Verdict.NONE) {
          candidates.add(
              new Candidate(g, gap.from(), gap.to(), load, random.nextInt(12), advice()));
        }
      }
      candidates.add(new Candidate(-1, at, at, load, 30, advice()));
      turns.add(candidates);
    }
    return turns;
  }

  private static Advice advice() {
    return new Advice(
        Advice.Kind.LEAVE_OUT,
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        0,
        false,
        "");
  }

  private static double cheapest(
      List<Gap> gaps, Judge judge, List<List<Candidate>> turns, List<Integer> chosen) {
    if (chosen.size() == turns.size()) {
      return cost(gaps, judge, turns, chosen);
    }
    double best = Double.POSITIVE_INFINITY;
    for (int c = 0; c < turns.get(chosen.size()).size(); c++) {
      List<Integer> longer = new ArrayList<>(chosen);
      longer.add(c);
      best = Math.min(best, cheapest(gaps, judge, turns, longer));
    }
    return best;
  }

  /** The cost model of the package's documentation, turn by turn. */
  private static double cost(
      List<Gap> gaps, Judge judge, List<List<Candidate>> turns, List<Integer> chosen) {
    double cost = 0;
    double load = 0;
    for (int t = 0; t < turns.size(); t++) {
      Candidate now = turns.get(t).get(chosen.get(t));
      boolean same = false;
      if (t > 0) {
        Candidate before = turns.get(t - 1).get(chosen.get(t - 1));
        boolean backwards = now.to() < before.from() - 1e-9;
        boolean gapsBackwards = now.gap() >= 0 && before.gap() >= 0 && now.gap() < before.gap();
        if (backwards || gapsBackwards) {
          return Double.POSITIVE_INFINITY;
        }
        same = now.gap() >= 0 && now.gap() == before.gap();
      }
      load = (same ? load : 0) + now.load();
      // Turns that share a gap take half as long again.
      double needed = same ? load * 1.5 : load;
      cost += now.base() + (now.gap() < 0 ? 0 : judge.cost(gaps.get(now.gap()), needed));
    }
    return cost;
  }
}
