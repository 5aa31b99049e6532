package org.barmap.reckon.cost;

import org.barmap.reckon.cells.Fill;
import org.barmap.reckon.cells.LineEvidence;

/**
 * What the beats of a cell tell of missed and invented barlines; natural logarithms of odds.
 *
 * @param widthShare how far the width of a cell still tells how many bars it is, where its beats
 *     are known
 * @param one that it is two bars although it holds one bar's worth
 * @param two that it is two bars as it holds two bars' worth
 * @param three that it is two bars or more as it holds three bars' worth
 * @param other that it is two bars where it holds no whole number of them
 * @param otherOctave what those grow by when it holds twice as much
 * @param third that a cell of two bars is one of three, as it holds three bars' worth
 * @param aroundBias logarithm of the odds of a line beside which nothing tells for or against it
 * @param joinedShare how far the odds that two cells together are two bars tell of the line between
 *     them
 * @param sideOne that a line is a barline, for each cell beside it that holds one bar's worth
 * @param sideOther likewise for each that doesn't
 */
public record BeatCosts(
    double widthShare,
    double one,
    double two,
    double three,
    double other,
    double otherOctave,
    double third,
    double aroundBias,
    double joinedShare,
    double sideOne,
    double sideOther) {

  /** Odds that a cell is two bars, from those that its width tells. */
  public double twoBars(Fill fill, double byWidth) {
    double told =
        switch (fill.bars()) {
          case ONE -> one;
          case TWO -> two;
          case THREE -> three;
          default -> other + otherOctave * fill.octaves();
        };
    return fill.known() ? widthShare * byWidth + told : byWidth;
  }

  /**
   * Odds of a line by what stands beside it.
   *
   * @param joined the odds that the two cells beside it together are two bars
   */
  double around(LineEvidence around, double joined) {
    return aroundBias
        + joinedShare * joined
        + sideOne * around.ones()
        + sideOther * around.others();
  }
}
