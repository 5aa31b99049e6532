package org.barmap.reckon.solve;

import java.util.List;
import org.barmap.reckon.solve.Solution.Choice;

/**
 * One step along the book; the state between steps is the number of the bar that is open.
 *
 * <p>Weights are probabilities, not their logarithms. All arrays have one place for each state, and
 * {@code out} is overwritten. The passes take time proportional to the number of states.
 */
public sealed interface Step permits Move, Observe, Restart, Pair, Branch {

  /** Sums that are taken side by side, because one addition has to wait for the one before. */
  int LANES = 4;

  /** The last one of them. */
  int LAST = LANES - 1;

  /** Back pointer of a state reached by a jump from the best state before. */
  short JUMP = -1;

  /** Sum-product forwards. */
  void sum(double[] in, double[] out);

  /** Sum-product backwards. */
  void sumBack(double[] in, double[] out);

  /**
   * Max-product forwards.
   *
   * @param back filled with the shift that led to each state, or {@link #JUMP}
   * @return the state jumps come from
   */
  int max(double[] in, double[] out, short[] back);

  /** Max-product backwards, without the way. */
  default void maxBack(double[] in, double[] out) {
    sumBack(in, out);
  }

  /**
   * Lists the choices of the best path, each as if it were sure.
   *
   * @param states how many numbers are told apart
   */
  default void sure(int from, int to, int states, List<Choice> out) {
    out.add(new Choice(from, to, 1, -1, 0, 1));
  }

  /** The steps it stands for, itself or those inside it. */
  default List<Step> single() {
    return List.of(this);
  }

  /** The number that is open after it by its own likeliest alternative. */
  default int likeliest(int before) {
    return before;
  }

  /** The largest number that weighs more than this in it, or 0. */
  default int largest(double weight) {
    return 0;
  }

  /** Natural logarithm of a factor that all weights of the step leave out; known after a pass. */
  default double log() {
    return 0;
  }

  /** How many choices the step stands for. */
  default int width() {
    return 1;
  }

  /**
   * How sure the path's choices are.
   *
   * @param around the weights around the step
   * @param from state of the path before
   * @param to state of the path after
   * @param out takes {@link #width()} choices from {@code at} on
   */
  void choices(Around around, int from, int to, Choice[] out, int at);

  /**
   * Forward weights before and after a step, backward weights after it.
   *
   * @param before forward, before the step
   * @param after forward, after it, in another unit
   * @param unit what 1 there is in the unit of {@code before}
   * @param beta backward, after it
   */
  record Around(double[] before, double[] after, double unit, double[] beta) {

    /**
     * Probability of the path's state after the step.
     *
     * @param all weight of all paths
     */
    double number(int to, double all) {
      return all > 0 ? after[to] * unit * beta[to] / all : 0;
    }

    /** Weight of all paths. */
    double all() {
      return unit * dot(after, beta, 0);
    }

    /** Weight of all paths that add {@code shift} bars here, but for the step's own weight. */
    double adding(int shift) {
      return dot(before, beta, shift);
    }

    /** The same for 0, 1, 2 and 3 bars in one pass. */
    double[] addingUpTo3() {
      double a = 0;
      double b = 0;
      double c = 0;
      double d = 0;
      int n = beta.length;
      for (int s = 0; s < n - LAST; s++) {
        double w = before[s];
        a += w * beta[s];
        b += w * beta[s + 1];
        c += w * beta[s + 2];
        d += w * beta[s + LAST];
      }
      a +=
          before[n - LAST] * beta[n - LAST]
              + before[n - 2] * beta[n - 2]
              + before[n - 1] * beta[n - 1];
      b += before[n - LAST] * beta[n - 2] + before[n - 2] * beta[n - 1];
      c += before[n - LAST] * beta[n - 1];
      return new double[] {a, b, c, d};
    }

    /** Four sums side by side, because one addition has to wait for the one before. */
    private static double dot(double[] x, double[] y, int shift) {
      double a = 0;
      double b = 0;
      double c = 0;
      double d = 0;
      int n = y.length - shift;
      int s = 0;
      for (; s + LANES <= n; s += LANES) {
        a += x[s] * y[s + shift];
        b += x[s + 1] * y[s + 1 + shift];
        c += x[s + 2] * y[s + 2 + shift];
        d += x[s + LAST] * y[s + LAST + shift];
      }
      for (; s < n; s++) {
        a += x[s] * y[s + shift];
      }
      return a + b + c + d;
    }
  }
}
