package org.barmap.reckon.solve;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Endings after which counting goes back, against brute force: every path is tried. */
class BranchTest {

  private static final int STATES = 7;

  static Stream<Long> seeds() {
    return Stream.iterate(1L, s -> s + 1).limit(150);
  }

  @ParameterizedTest
  @MethodSource("seeds")
  void bestPathAndProbabilitiesAreThoseOfAllPathsTried(long seed) {
    Random random = new Random(seed);
    List<Step> flat = new ArrayList<>();
    int before = random.nextInt(3);
    int inside = random.nextInt(4);
    int after = 1 + random.nextInt(2);
    for (int i = 0; i < before + inside; i++) {
      flat.add(step(random));
    }
    flat.add(Move.fixed(0));
    for (int i = 0; i < after; i++) {
      flat.add(step(random));
    }
    double[] prior = new double[STATES];
    Arrays.setAll(prior, s -> s < 4 ? 0.1 + random.nextDouble() : 0);
    int back = before + inside;
    List<Step> folded = Branch.fold(flat, List.of(new int[] {before, back}));

    Tried tried = new Tried(flat, before, back, prior);
    Solver solver = new Solver(folded, STATES, prior);
    Solution solution = solver.solve();

    assertThat(solution.choices()).hasSize(flat.size());
    assertThat(solution.logLikelihood()).isCloseTo(Math.log(tried.total), within(1e-9));
    double own = prior[solution.first()];
    int open = solution.first();
    for (int t = 0; t < flat.size(); t++) {
      Solution.Choice c = solution.choices().get(t);
      assertThat(c.before()).isEqualTo(open);
      open = c.after();
      own *= t == back ? 1 : SolverTest.BruteForce.best(flat.get(t), c.before(), c.after());
      double exact = tried.numbers[t][c.after()] / tried.total;
      assertThat(c.numberProbability()).isCloseTo(exact, within(1e-9));
      if (flat.get(t) instanceof Move && t != back) {
        double choice = tried.shifts[t][c.shift()] / tried.total;
        assertThat(c.probability()).isCloseTo(choice, within(1e-9));
      }
    }
    assertThat(own).isCloseTo(tried.best, within(1e-9 * tried.best));
    int start = back == 0 || before == 0 ? solution.first() : at(solution, before - 1);
    assertThat(at(solution, back)).isEqualTo(start);
    assertThat(solver.bestPath().stream().map(Solution.Choice::after).toList())
        .isEqualTo(solution.choices().stream().map(Solution.Choice::after).toList());
  }

  private static int at(Solution solution, int t) {
    return solution.choices().get(t).after();
  }

  private static Step step(Random random) {
    return switch (random.nextInt(4)) {
      case 0 -> Move.line(0.05 + 0.9 * random.nextDouble());
      case 1 ->
          new Move(
              new int[] {0, 1 + random.nextInt(3)},
              new double[] {random.nextDouble(), random.nextDouble()},
              0.1 * random.nextDouble(),
              random.nextInt(2),
              2 + random.nextInt(2));
      case 2 ->
          new Observe(
              new int[] {random.nextInt(STATES), random.nextInt(STATES)},
              new double[] {random.nextDouble(), random.nextDouble()},
              0.01 + 0.01 * random.nextDouble());
      default -> new Restart(random.nextDouble(), random.nextDouble(), 0.1, 0.01);
    };
  }

  /** Every sequence of states; where an ending goes back, only the number it began with. */
  private static final class Tried {
    final double[][] numbers;
    final double[][] shifts;
    double best;
    double total;
    private final List<Step> steps;
    private final int from;
    private final int back;

    Tried(List<Step> steps, int from, int back, double[] prior) {
      this.steps = steps;
      this.from = from;
      this.back = back;
      numbers = new double[steps.size()][STATES];
      shifts = new double[steps.size()][STATES];
      int[] path = new int[steps.size() + 1];
      for (int s = 0; s < STATES; s++) {
        path[0] = s;
        walk(0, path, prior[s], prior[s]);
      }
    }

    private void walk(int t, int[] path, double all, double single) {
      if (all <= 0) {
        return;
      }
      if (t == steps.size()) {
        best = Math.max(best, single);
        total += all;
        for (int i = 0; i < t; i++) {
          numbers[i][path[i + 1]] += all;
          if (path[i + 1] >= path[i]) {
            shifts[i][path[i + 1] - path[i]] += all;
          }
        }
        return;
      }
      for (int next = 0; next < STATES; next++) {
        path[t + 1] = next;
        if (t == back) {
          walk(t + 1, path, next == path[from] ? all : 0, single);
        } else {
          walk(
              t + 1,
              path,
              all * SolverTest.BruteForce.sum(steps.get(t), path[t], next),
              single * SolverTest.BruteForce.best(steps.get(t), path[t], next));
        }
      }
    }
  }
}
