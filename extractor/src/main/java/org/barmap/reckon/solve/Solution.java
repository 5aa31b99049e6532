package org.barmap.reckon.solve;

import java.util.List;

/**
 * The best joint reading of all steps, with how sure each choice is.
 *
 * @param choices one for each step
 * @param first number of the first bar of the book
 * @param logLikelihood natural logarithm of the sum over all readings, for comparing models
 */
public record Solution(List<Choice> choices, int first, double logLikelihood) {

  /**
   * What the best path does at one step.
   *
   * @param before number of the open bar before the step
   * @param after number of the open bar after it
   * @param probability of this choice given everything in the book
   * @param bestOther the most likely different choice: a shift, or for an observation unused
   * @param otherProbability of that different choice
   * @param numberProbability probability that the open bar after the step has the number {@code
   *     after}
   */
  public record Choice(
      int before,
      int after,
      double probability,
      int bestOther,
      double otherProbability,
      double numberProbability) {

    /** How many bars the step added. */
    public int shift() {
      return after - before;
    }
  }
}
