package org.barmap.reckon;

import org.barmap.reckon.Solution.Choice;

/**
 * One step along the book; the state between steps is the number of the bar that is open.
 *
 * <p>Weights are probabilities, not their logarithms. All arrays have one place for each state;
 * results are added to {@code out}, which comes filled with zeros. Every method takes time
 * proportional to the number of states.
 */
sealed interface Step permits Move, Observe, Restart {

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

  /**
   * How sure the path's choice is.
   *
   * @param before forward weights before the step
   * @param after forward weights after it
   * @param beta backward weights after it
   * @param from state of the path before
   * @param to state of the path after
   */
  Choice choice(float[] before, float[] after, double[] beta, int from, int to);

  /** Probability of the path's state after the step. */
  static double stateProbability(float[] after, double[] beta, int to) {
    double all = 0;
    for (int s = 0; s < beta.length; s++) {
      all += after[s] * beta[s];
    }
    return all > 0 ? after[to] * beta[to] / all : 0;
  }
}
