package org.barmap.reckon;

import java.util.Arrays;
import java.util.List;
import org.barmap.reckon.Solution.Choice;

/**
 * Finds the most likely path through the steps, exactly, and the probability of each of its
 * choices.
 *
 * <p>Max-product forwards with back pointers, sum-product forwards and backwards; every step costs
 * time proportional to the number of states, because "any other shift" has one weight and so is a
 * sliding window.
 */
final class Solver {

  private final List<Step> steps;
  private final int states;
  private final double[] prior;

  /**
   * Prepares a run.
   *
   * @param steps in reading order
   * @param states bar numbers 0 to {@code states - 1} are told apart
   * @param prior weight of each number for the first bar of the book, length {@code states}
   */
  Solver(List<Step> steps, int states, double[] prior) {
    this.steps = steps;
    this.states = states;
    this.prior = prior.clone();
  }

  /** Solves. */
  Solution solve() {
    int n = steps.size();
    float[][] alpha = new float[n + 1][];
    short[][] back = new short[n][states];
    int[] jumpFrom = new int[n];
    double[] sum = prior.clone();
    double log = scale(sum);
    double[] max = sum.clone();
    alpha[0] = floats(sum);
    for (int t = 0; t < n; t++) {
      double[] nextSum = new double[states];
      steps.get(t).sum(sum, nextSum);
      log += scale(nextSum);
      double[] nextMax = new double[states];
      jumpFrom[t] = steps.get(t).max(max, nextMax, back[t]);
      scale(nextMax);
      sum = nextSum;
      max = nextMax;
      alpha[t + 1] = floats(sum);
    }
    int[] path = trace(max, back, jumpFrom);
    return new Solution(choices(alpha, path), path[0], log + Math.log(Arrays.stream(sum).sum()));
  }

  private int[] trace(double[] max, short[][] back, int[] jumpFrom) {
    int n = steps.size();
    int[] path = new int[n + 1];
    int at = 0;
    for (int s = 1; s < states; s++) {
      at = max[s] > max[at] ? s : at;
    }
    path[n] = at;
    for (int t = n - 1; t >= 0; t--) {
      short shift = back[t][at];
      at = shift == Step.JUMP ? jumpFrom[t] : at - shift;
      path[t] = at;
    }
    return path;
  }

  /** Walks backwards, multiplying what the rest of the book says into every choice. */
  private List<Choice> choices(float[][] alpha, int[] path) {
    int n = steps.size();
    Choice[] out = new Choice[n];
    double[] beta = new double[states];
    Arrays.fill(beta, 1);
    for (int t = n - 1; t >= 0; t--) {
      out[t] = steps.get(t).choice(alpha[t], alpha[t + 1], beta, path[t], path[t + 1]);
      double[] next = new double[states];
      steps.get(t).sumBack(beta, next);
      scale(next);
      beta = next;
    }
    return List.of(out);
  }

  /** Divides by the largest value and returns its logarithm. */
  private static double scale(double[] values) {
    double top = 0;
    for (double v : values) {
      top = Math.max(top, v);
    }
    if (!(top > 0)) {
      throw new IllegalStateException("no path: every weight is zero");
    }
    for (int i = 0; i < values.length; i++) {
      values[i] /= top;
    }
    return Math.log(top);
  }

  private static float[] floats(double[] values) {
    float[] out = new float[values.length];
    for (int i = 0; i < values.length; i++) {
      out[i] = (float) values[i];
    }
    return out;
  }
}
