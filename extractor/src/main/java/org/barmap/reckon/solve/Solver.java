package org.barmap.reckon.solve;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import org.barmap.reckon.solve.Solution.Choice;

/**
 * Finds the most likely path through the steps, exactly, and the probability of each of its
 * choices.
 *
 * <p>Max-product forwards with back pointers, sum-product forwards and backwards; every step costs
 * time proportional to the number of states, because "any other shift" has one weight and so is a
 * sliding window. Forward weights are kept at every {@value #BLOCK}th step only and worked out
 * again on the way back, so that they stay near the processor.
 */
public final class Solver {

  /** Steps between two kept forward weights. */
  private static final int BLOCK = 64;

  /**
   * Steps without scaling; a step weighs at least about 1e-10 on some path, so nothing vanishes.
   */
  private static final int UNSCALED = 8;

  private final List<Step> steps;
  private final int states;
  private final double[] prior;
  private final double[] begin;
  private double[][] kept = new double[0][];
  private double log;
  private int[] path = {};

  /**
   * Prepares a run.
   *
   * @param steps in reading order
   * @param states bar numbers 0 to {@code states - 1} are told apart; at least 4
   * @param prior weight of each number for the first bar of the book, length {@code states}
   */
  public Solver(List<Step> steps, int states, double[] prior) {
    this(steps, Arrays.copyOf(prior, states), prior);
  }

  /**
   * Prepares a run whose best path may only begin at some of the numbers.
   *
   * @param begin weight of each number for the beginning of the best path, same length
   */
  public Solver(List<Step> steps, double[] prior, double[] begin) {
    this.steps = paired(steps);
    this.states = prior.length;
    this.prior = prior.clone();
    this.begin = begin.clone();
  }

  /** Takes two small moves in one pass where they follow each other. */
  private static List<Step> paired(List<Step> steps) {
    List<Step> out = new ArrayList<>();
    for (int t = 0; t < steps.size(); t++) {
      boolean pair = t + 1 < steps.size() && Pair.fits(steps.get(t), steps.get(t + 1));
      out.add(pair ? Pair.of((Move) steps.get(t), (Move) steps.get(++t)) : steps.get(t));
    }
    return out;
  }

  /** Sums over all readings, if that wasn't done yet. */
  public void sum() {
    if (kept.length == 0) {
      forwards();
    }
  }

  /** Natural logarithm of the sum over all readings, for comparing models. */
  public double logLikelihood() {
    sum();
    return log;
  }

  /** Solves. */
  public Solution solve() {
    // two passes that don't need each other, on two processors where there are two
    CompletableFuture<int[]> going = CompletableFuture.supplyAsync(this::path);
    double sum = logLikelihood();
    int[] best = going.join();
    return new Solution(choices(best), best[0], sum);
  }

  /** The states of the best path, one more than there are passes. */
  private int[] path() {
    if (path.length == 0) {
      path = findPath();
    }
    return path;
  }

  /** The best path alone, each choice as if it were sure; sooner had than the whole solution. */
  public List<Choice> bestPath() {
    int[] states = path();
    List<Choice> out = new ArrayList<>();
    for (int t = 0; t < steps.size(); t++) {
      steps.get(t).sure(states[t], states[t + 1], this.states, out);
    }
    return out;
  }

  private int[] findPath() {
    int n = steps.size();
    short[][] back = new short[n][states];
    int[] jumpFrom = new int[n];
    double[] max = begin.clone();
    double[] spare = new double[states];
    for (int t = 0; t < n; t++) {
      if (t % UNSCALED == 0) {
        scale(max);
      }
      jumpFrom[t] = steps.get(t).max(max, spare, back[t]);
      double[] swap = max;
      max = spare;
      spare = swap;
    }
    return trace(max, back, jumpFrom);
  }

  /** Sums forwards through the book, keeping the weights at the beginning of every block. */
  private void forwards() {
    int n = steps.size();
    kept = new double[n / BLOCK + 1][];
    double[] sum = prior.clone();
    double[] spare = new double[states];
    for (int t = 0; t < n; t++) {
      if (t % UNSCALED == 0) {
        log += scale(sum);
      }
      if (t % BLOCK == 0) {
        kept[t / BLOCK] = sum.clone();
      }
      steps.get(t).sum(sum, spare);
      log += steps.get(t).log();
      double[] swap = sum;
      sum = spare;
      spare = swap;
    }
    log += scale(sum) + Math.log(Arrays.stream(sum).sum());
  }

  private int[] trace(double[] max, short[][] back, int[] jumpFrom) {
    int n = steps.size();
    int[] out = new int[n + 1];
    int at = 0;
    for (int s = 1; s < states; s++) {
      at = max[s] > max[at] ? s : at;
    }
    out[n] = at;
    for (int t = n - 1; t >= 0; t--) {
      short shift = back[t][at];
      at = shift == Step.JUMP ? jumpFrom[t] : at - shift;
      out[t] = at;
    }
    return out;
  }

  /** Walks backwards, multiplying what the rest of the book says into every choice. */
  private List<Choice> choices(int[] best) {
    int n = steps.size();
    Choice[] out = new Choice[steps.stream().mapToInt(Step::width).sum()];
    int at = out.length;
    double[][] alpha = new double[BLOCK + 1][states];
    double[] units = new double[BLOCK + 1];
    double[] beta = new double[states];
    double[] spare = new double[states];
    Arrays.fill(beta, 1);
    for (int t = n - 1; t >= 0; t--) {
      int first = t - t % BLOCK;
      if (t == n - 1 || t % BLOCK == BLOCK - 1) {
        forwards(kept[first / BLOCK], first, t, alpha, units);
      }
      Step step = steps.get(t);
      at -= step.width();
      int i = t - first;
      Step.Around around = new Step.Around(alpha[i], alpha[i + 1], units[i + 1], beta);
      step.choices(around, best[t], best[t + 1], out, at);
      step.sumBack(beta, spare);
      double[] swap = beta;
      beta = spare;
      spare = swap;
      if (t % UNSCALED == 0) {
        scale(beta);
      }
    }
    return List.of(out);
  }

  /**
   * Works out the forward weights of a block again; {@code units} takes what each was scaled by.
   */
  private void forwards(double[] start, int first, int last, double[][] alpha, double[] units) {
    System.arraycopy(start, 0, alpha[0], 0, states);
    for (int t = first; t <= last; t++) {
      double[] out = alpha[t - first + 1];
      steps.get(t).sum(alpha[t - first], out);
      units[t - first + 1] = t % UNSCALED == UNSCALED - 1 ? Math.exp(scale(out)) : 1;
    }
  }

  /**
   * Divides by the largest value and returns its logarithm.
   *
   * @throws NoPathException when there is none above zero
   */
  static double scale(double[] values) {
    double top = 0;
    for (double v : values) {
      top = Math.max(top, v);
    }
    if (!(top > 0)) {
      throw new NoPathException();
    }
    double share = 1 / top;
    for (int i = 0; i < values.length; i++) {
      values[i] *= share;
    }
    return Math.log(top);
  }
}
