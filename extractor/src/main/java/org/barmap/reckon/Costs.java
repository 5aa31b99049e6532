package org.barmap.reckon;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import org.barmap.map.BarMapJson;

/**
 * The probabilities the reckoning weighs evidence with.
 *
 * <p>They are fitted on the read pages of the corpus against their truths ({@code FitTest} in the
 * corpus module) and kept in {@code costs.json} with the counts they come from. Three are not
 * fitted, because single pages say nothing about them: {@code restartElsewhere}, {@code
 * missingPages} and {@code doubt}.
 *
 * @param missedLine share of cells in which a barline was missed
 * @param widthBias natural logarithm of the odds, against that share, that a cell of the usual
 *     width is two bars
 * @param perOctave what those grow by when it is twice as wide
 * @param besideRest what they grow by in a rest's cell, whose width is the room beside the rest
 * @param markedCell what they grow by where a mark or a bar number stands inside a cell
 * @param lineBias natural logarithm of the odds of a line that the reader gives one half
 * @param lineSlope how far the logarithm of a line's odds follows the reader's
 * @param floor no reading is believed more than {@code 1 - floor} or less than {@code floor}
 * @param restNumbered logarithm of the odds that a rest with a numeral stands for several bars,
 *     where the reader gives it one half
 * @param restBare likewise of a rest without a numeral
 * @param numeralAlone likewise of a numeral without a rest
 * @param restSlope how far those odds follow the reader's
 * @param numberBias logarithm of the odds that a bar number is one, where the reader gives one half
 * @param numberSlope how far those odds follow the reader's
 * @param misreadCount a rest's numeral says something that no reading of it lists
 * @param misreadNumber a printed bar number says something that no reading of it lists
 * @param numeralSlope how far the readings of a numeral are told apart: the power of their
 *     probabilities
 * @param oneFigure of all misread numerals, the share with just one figure wrong
 * @param figureMore of all misread numerals, the share with one figure lost or added
 * @param narrow a bar narrower than this share of the usual width is suspect
 * @param narrowPower how fast that grows with narrowness
 * @param strength observations that these shares count as when a book's own are estimated
 * @param insideRest odds that a line within a thick rest bar is a barline, against elsewhere
 * @param betweenRests two numbered rests without a line between them are two bars
 * @param openingRepeat a forward repeat near the beginning of a line ends a bar
 * @param openEnd a line without a closing barline still ends a bar
 * @param restartAtHeading counting starts again under the heading of a musical number
 * @param restartAfterFinal likewise after a final barline without a heading
 * @param restartElsewhere likewise at any other line
 * @param pickup share of numbers that start with a pickup
 * @param missedSystem a line was not found, so that the numbers go on up to {@value #SYSTEM} bars
 *     later
 * @param missingPages bars are missing between two lines, for each number to go on at
 * @param doubt a choice less likely than this is shown to a person
 */
record Costs(
    double missedLine,
    double widthBias,
    double perOctave,
    double besideRest,
    double markedCell,
    double lineBias,
    double lineSlope,
    double floor,
    double restNumbered,
    double restBare,
    double numeralAlone,
    double restSlope,
    double numberBias,
    double numberSlope,
    double misreadCount,
    double misreadNumber,
    double numeralSlope,
    double oneFigure,
    double figureMore,
    double narrow,
    double narrowPower,
    double strength,
    double insideRest,
    double betweenRests,
    double openingRepeat,
    double openEnd,
    double restartAtHeading,
    double restartAfterFinal,
    double restartElsewhere,
    double pickup,
    double missedSystem,
    double missingPages,
    double doubt) {

  /** Bar numbers a misread print may say, all alike. */
  static final int NUMBERS = 300;

  /** Counts a misread rest may say, all alike. */
  static final int COUNTS = 120;

  /** Bars that a line that was not found may have had, at most. */
  static final int SYSTEM = 40;

  /** And at least; nearly every line of the corpus has more. */
  static final int LEAST_SYSTEM = 3;

  static final Costs DEFAULT = load();

  private record Kept(Costs costs) {}

  private static Costs load() {
    try (InputStream in = Costs.class.getResourceAsStream("costs.json")) {
      if (in == null) {
        throw new IOException("costs.json is not among the program's resources");
      }
      return BarMapJson.mapper().readValue(in, Kept.class).costs();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /**
   * How likely one barline was missed in a cell.
   *
   * @param octaves how many times it is twice as wide as usual, below 0 for a narrow one
   * @param rest whether it holds a rest, and octaves are those of the room beside it
   * @param marked whether something stands in it that stands at a bar's beginning
   */
  double missed(double octaves, boolean rest, boolean marked) {
    double log = widthBias + perOctave * Math.max(-2, Math.min(2, octaves));
    log += (rest ? besideRest : 0) + (marked ? markedCell : 0);
    double odds = missedLine / (1 - missedLine) * Math.exp(log);
    return Math.min(0.5, odds / (1 + odds));
  }

  /**
   * How likely a line is a barline.
   *
   * @param read the reader's own probability; of a line without ink the share of such lines that
   *     are one
   * @param ink whether the line is there to be read
   * @param beside width of the narrower cell beside it, against the usual one
   * @param inside whether it stands within a thick rest bar
   */
  double line(double read, boolean ink, double beside, boolean inside) {
    double p = Math.max(floor, Math.min(1 - floor, read));
    double odds = p / (1 - p);
    if (ink) {
      odds = Math.exp(lineBias) * Math.pow(odds, lineSlope);
    }
    odds *=
        Math.min(1, Math.pow(Math.max(0.02, beside) / narrow, narrowPower))
            * (inside ? insideRest : 1);
    return odds / (1 + odds);
  }

  /** Tells whether the reader took a line for a barline, whatever the book says. */
  boolean believes(double read) {
    return lineBias + lineSlope * logit(read) >= 0;
  }

  /** How likely a rest of several bars, or a numeral without one, is one. */
  double rest(RestEvidence rest) {
    double bias =
        !rest.seen() ? numeralAlone : rest.numeral().isPresent() ? restNumbered : restBare;
    return logistic(bias + restSlope * logit(rest.sign().probability()));
  }

  /** How likely a bar number is one, given the reader's probability. */
  double number(double read) {
    return logistic(numberBias + numberSlope * logit(read));
  }

  private double logistic(double x) {
    return Math.max(floor, Math.min(1 - floor, 1 / (1 + Math.exp(-x))));
  }

  private static double logit(double p) {
    double inside = Math.max(0.01, Math.min(0.99, p));
    return Math.log(inside / (1 - inside));
  }

  /** The same with other shares of errors. */
  Costs withRates(double missed, double count, double number) {
    return new Costs(
        missed,
        widthBias,
        perOctave,
        besideRest,
        markedCell,
        lineBias,
        lineSlope,
        floor,
        restNumbered,
        restBare,
        numeralAlone,
        restSlope,
        numberBias,
        numberSlope,
        count,
        number,
        numeralSlope,
        oneFigure,
        figureMore,
        narrow,
        narrowPower,
        strength,
        insideRest,
        betweenRests,
        openingRepeat,
        openEnd,
        restartAtHeading,
        restartAfterFinal,
        restartElsewhere,
        pickup,
        missedSystem,
        missingPages,
        doubt);
  }
}
