package org.barmap.reckon.solve;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** The solver against brute force: every path of small random books is tried. */
class SolverTest {

  private static final int STATES = 12;

  static Stream<Long> seeds() {
    return Stream.iterate(1L, s -> s + 1).limit(200);
  }

  @ParameterizedTest
  @MethodSource("seeds")
  void bestPathAndProbabilitiesAreThoseOfAllPathsTried(long seed) {
    Random random = new Random(seed);
    int length = 2 + random.nextInt(4);
    List<Step> steps = steps(random, length);
    double[] prior = prior(random, 3);

    BruteForce brute = new BruteForce(steps, prior);
    Solution solution = new Solver(steps, STATES, prior).solve();

    double own = prior[solution.first()];
    for (int t = 0; t < length; t++) {
      Solution.Choice c = solution.choices().get(t);
      own *= BruteForce.best(steps.get(t), c.before(), c.after());
    }
    assertThat(own).isCloseTo(brute.best, within(1e-9 * brute.best));
    assertThat(solution.logLikelihood()).isCloseTo(Math.log(brute.total), within(1e-9));
    for (int t = 0; t < length; t++) {
      Solution.Choice c = solution.choices().get(t);
      double exact = brute.mass[t + 1][c.after()] / brute.total;
      assertThat(c.numberProbability()).isCloseTo(exact, within(1e-9));
    }
  }

  static Stream<Long> longSeeds() {
    return Stream.iterate(1000L, s -> s + 1).limit(20);
  }

  /** Long enough for blocks and scaling; the reference keeps every weight and never scales. */
  @ParameterizedTest
  @MethodSource("longSeeds")
  void longBooksAreSolvedAsByPlainMatrices(long seed) {
    Random random = new Random(seed);
    int length = 130 + random.nextInt(60);
    List<Step> steps = steps(random, length);
    double[] prior = prior(random, STATES);

    Plain plain = new Plain(steps, prior);
    Solution solution = new Solver(steps, STATES, prior).solve();

    double own = prior[solution.first()];
    int at = solution.first();
    for (int t = 0; t < length; t++) {
      Solution.Choice c = solution.choices().get(t);
      assertThat(c.before()).isEqualTo(at);
      at = c.after();
      own *= BruteForce.best(steps.get(t), c.before(), c.after());
      double number = plain.alpha[t + 1][at] * plain.beta[t + 1][at] / plain.total;
      assertThat(c.numberProbability()).isCloseTo(number, within(1e-9));
      if (steps.get(t) instanceof Move) {
        double choice = plain.adding(steps.get(t), t, c.shift());
        assertThat(c.probability()).isCloseTo(choice, within(1e-9));
        double other = 0;
        for (int k = 0; k < STATES; k++) {
          other = k == c.shift() ? other : Math.max(other, plain.adding(steps.get(t), t, k));
        }
        assertThat(c.otherProbability()).isCloseTo(other, within(1e-4));
      }
    }
    assertThat(own).isCloseTo(plain.best, within(1e-9 * plain.best));
    assertThat(solution.logLikelihood()).isCloseTo(Math.log(plain.total), within(1e-9));
  }

  /** Forwards and backwards with one weight for every pair of states. */
  private static final class Plain {
    final double[][] alpha;
    final double[][] beta;
    final double total;
    final double best;

    Plain(List<Step> steps, double[] prior) {
      int n = steps.size();
      alpha = new double[n + 1][STATES];
      beta = new double[n + 1][STATES];
      double[][] max = new double[n + 1][STATES];
      alpha[0] = prior.clone();
      max[0] = prior.clone();
      Arrays.fill(beta[n], 1);
      for (int t = 0; t < n; t++) {
        for (int a = 0; a < STATES; a++) {
          for (int b = 0; b < STATES; b++) {
            alpha[t + 1][b] += alpha[t][a] * BruteForce.sum(steps.get(t), a, b);
            double w = max[t][a] * BruteForce.best(steps.get(t), a, b);
            max[t + 1][b] = Math.max(max[t + 1][b], w);
          }
        }
      }
      for (int t = n - 1; t >= 0; t--) {
        for (int a = 0; a < STATES; a++) {
          for (int b = 0; b < STATES; b++) {
            beta[t][a] += beta[t + 1][b] * BruteForce.sum(steps.get(t), a, b);
          }
        }
      }
      total = Arrays.stream(alpha[n]).sum();
      best = Arrays.stream(max[n]).max().orElse(0);
    }

    double adding(Step step, int t, int shift) {
      double sum = 0;
      for (int a = 0; a + shift < STATES; a++) {
        sum += alpha[t][a] * BruteForce.sum(step, a, a + shift) * beta[t + 1][a + shift];
      }
      return sum / total;
    }
  }

  @Test
  void windowOfOtherShiftsReachesExactlyItsLargestShift() {
    double[] prior = new double[STATES];
    prior[2] = 1;
    Step step = new Move(new int[] {0}, new double[] {1e-6}, 0.1, 0, 3);
    double[] out = new double[STATES];
    step.sum(prior, out);
    assertThat(out[5]).isCloseTo(0.1, within(1e-12));
    assertThat(out[6]).isZero();
  }

  private static List<Step> steps(Random random, int length) {
    return Stream.generate(() -> step(random)).limit(length).toList();
  }

  /** Weights of the numbers to begin with, of which the first few are possible. */
  private static double[] prior(Random random, int possible) {
    double[] prior = new double[STATES];
    Arrays.setAll(prior, s -> s < possible ? 0.1 + random.nextDouble() : 0);
    return prior;
  }

  private static Step step(Random random) {
    return switch (random.nextInt(5)) {
      case 0 -> Move.line(0.05 + 0.9 * random.nextDouble());
      case 4 ->
          Move.of(
              new int[] {0, 1, 2},
              new double[] {random.nextDouble(), random.nextDouble(), 0.1 * random.nextDouble()});
      case 1 ->
          new Move(
              new int[] {0, 1 + random.nextInt(4)},
              new double[] {random.nextDouble(), random.nextDouble()},
              0.01 * random.nextDouble(),
              random.nextInt(3),
              2 + random.nextInt(4));
      case 2 ->
          new Observe(
              new int[] {random.nextInt(STATES), random.nextInt(STATES)},
              new double[] {random.nextDouble(), random.nextDouble()},
              0.001 + 0.01 * random.nextDouble());
      default -> new Restart(random.nextDouble(), random.nextDouble(), 0.1, 0.001);
    };
  }

  /** Tries every sequence of states, with every way a step can lead from one to the next. */
  static final class BruteForce {
    final double[][] mass;
    double best;
    double total;
    private final List<Step> steps;

    BruteForce(List<Step> steps, double[] prior) {
      this.steps = steps;
      this.mass = new double[steps.size() + 1][STATES];
      for (int s = 0; s < STATES; s++) {
        walk(0, new int[steps.size() + 1], s, prior[s], prior[s]);
      }
    }

    private void walk(int t, int[] path, int state, double all, double single) {
      path[t] = state;
      if (all <= 0) {
        return;
      }
      if (t == steps.size()) {
        best = Math.max(best, single);
        total += all;
        for (int i = 0; i <= t; i++) {
          mass[i][path[i]] += all;
        }
        return;
      }
      for (int next = 0; next < STATES; next++) {
        double sum = sum(steps.get(t), state, next);
        walk(t + 1, path, next, all * sum, single * best(steps.get(t), state, next));
      }
    }

    /** Total weight of all ways from one state to another. */
    static double sum(Step step, int from, int to) {
      if (step instanceof Move m) {
        return to < from ? 0 : m.weight(to - from);
      }
      if (step instanceof Observe o) {
        return from == to ? weight(o, to) : 0;
      }
      Restart r = (Restart) step;
      return jump(r, to) + (from == to ? r.stay() : 0);
    }

    /** Weight of the best single way. */
    static double best(Step step, int from, int to) {
      if (!(step instanceof Restart r)) {
        return sum(step, from, to);
      }
      return Math.max(jump(r, to), from == to ? r.stay() : 0);
    }

    private static double jump(Restart r, int to) {
      return r.elsewhere() + (to == 1 ? r.toOne() : to == 0 ? r.toZero() : 0);
    }

    private static double weight(Observe o, int state) {
      double w = o.base();
      for (int i = 0; i < o.values().length; i++) {
        w += o.values()[i] == state ? o.weights()[i] : 0;
      }
      return w;
    }
  }
}
