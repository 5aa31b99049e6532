package org.barmap.reckon.cost;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import org.barmap.map.json.BarMapJson;
import org.barmap.reckon.cells.Fill;
import org.barmap.reckon.cells.GapEvidence;
import org.barmap.reckon.cells.LineEvidence;
import org.barmap.reckon.cells.RestEvidence;
import org.barmap.reckon.set.CostSettings;
import org.barmap.reckon.set.ReckonSettings;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;

/**
 * The probabilities the reckoning weighs evidence with.
 *
 * <p>They are fitted on the read pages of the corpus against their truths ({@code barmap fit
 * costs}) and kept in {@code costs.json} with the counts they come from. Three are not fitted,
 * because single pages say nothing about them: {@code restartElsewhere}, {@code missingPages} and
 * {@code doubt}.
 *
 * @param gaps how likely a barline was missed in a cell
 * @param lines how likely a line is a barline
 * @param rests how likely a rest stands for several bars, and how often its numeral is misread
 * @param numbers how likely a bar number is one, and how often it is misread
 * @param numerals what a misread numeral may have been
 * @param restarts where counting starts again, or bars are missing
 * @param floor no reading is believed more than {@code 1 - floor} or less than {@code floor}
 * @param strength observations that these shares count as when a book's own are estimated
 * @param doubt a choice less likely than this is shown to a person
 * @param beats what the beats of a cell tell
 */
public record Costs(
    Gaps gaps,
    Lines lines,
    Rests rests,
    Numbers numbers,
    Numerals numerals,
    Restarts restarts,
    double floor,
    double strength,
    double doubt,
    BeatCosts beats) {

  /**
   * How likely a barline was missed in a cell.
   *
   * @param missedLine share of cells in which a barline was missed
   * @param widthBias natural logarithm of the odds, against that share, that a cell of the usual
   *     width is two bars
   * @param perOctave what those grow by when it is twice as wide as the line's others
   * @param perSquare what they grow by with the square of that
   * @param perOctaveOnPage what they grow by when it is twice as wide as usual on its page
   * @param firstOfLine what they grow by in a line's first cell
   * @param besideSign the same odds in a cell with one sign in the middle of its bar, where the
   *     room beside it is a bar of the usual width
   * @param besideOctave what those grow by when that room is twice as wide
   * @param twoSigns the same odds where two such signs stand in one cell
   * @param markedCell what they grow by where a mark or a bar number stands inside a cell
   * @param traceBias what they grow by where a faint line is seen that the reader gives one half
   * @param traceSlope how far they follow the reader's odds of a faint line
   * @param mostMissed however much a cell looks like two bars, it is not likelier; below one half,
   *     so that a book that errs no more than usual is only bent where its numbers ask for it
   */
  public record Gaps(
      double missedLine,
      double widthBias,
      double perOctave,
      double perSquare,
      double perOctaveOnPage,
      double firstOfLine,
      double besideSign,
      double besideOctave,
      double twoSigns,
      double markedCell,
      double traceBias,
      double traceSlope,
      double mostMissed) {

    /** The same in a book that misses more barlines than usual. */
    private Gaps with(double missed) {
      return new Gaps(
          missed,
          widthBias,
          perOctave,
          perSquare,
          perOctaveOnPage,
          firstOfLine,
          besideSign,
          besideOctave,
          twoSigns,
          markedCell,
          traceBias,
          traceSlope,
          SET.mostMissed());
    }
  }

  /**
   * How likely a line is a barline.
   *
   * @param lineBias natural logarithm of the odds of a line that the reader gives one half
   * @param lineSlope how far the logarithm of a line's odds follows the reader's
   * @param narrow a bar narrower than this share of the usual width is suspect
   * @param narrowPower how fast that grows with narrowness
   * @param aroundBias logarithm of the odds of a line beside which nothing tells for or against it
   * @param joinedShare how far the odds that two cells together are two bars tell of the line
   *     between them
   * @param offMiddle logarithm of the odds of a line beside which a sign stands off the middle of
   *     its bar by the width of a bar
   * @param offOctave what those grow by when it is off by twice as much
   * @param insideRest odds that a line within a thick rest bar is a barline, against elsewhere
   * @param betweenRests two numbered rests without a line between them are two bars
   * @param openingRepeat a forward repeat near the beginning of a line ends a bar
   * @param openEnd a line without a closing barline still ends a bar
   */
  public record Lines(
      double lineBias,
      double lineSlope,
      double narrow,
      double narrowPower,
      double aroundBias,
      double joinedShare,
      double offMiddle,
      double offOctave,
      double insideRest,
      double betweenRests,
      double openingRepeat,
      double openEnd) {}

  /**
   * How likely a rest stands for several bars, and how often its numeral is misread.
   *
   * @param restNumbered logarithm of the odds that a rest with a numeral stands for several bars,
   *     where the reader gives it one half
   * @param restBare likewise of a rest without a numeral
   * @param numeralAlone likewise of a numeral without a rest
   * @param restSlope how far those odds follow the reader's
   * @param misreadCount a rest's numeral says something that no reading of it lists
   */
  public record Rests(
      double restNumbered,
      double restBare,
      double numeralAlone,
      double restSlope,
      double misreadCount) {

    /** The same where others are misread as often. */
    private Rests with(double misread) {
      return new Rests(restNumbered, restBare, numeralAlone, restSlope, misread);
    }
  }

  /**
   * How likely a bar number is one, and how often it is misread.
   *
   * @param numberBias logarithm of the odds that a bar number is one, where the reader gives one
   *     half
   * @param numberSlope how far those odds follow the reader's
   * @param misreadNumber a printed bar number says something that no reading of it lists
   */
  public record Numbers(double numberBias, double numberSlope, double misreadNumber) {

    /** The same where others are misread as often. */
    private Numbers with(double misread) {
      return new Numbers(numberBias, numberSlope, misread);
    }
  }

  /**
   * What a misread numeral may have been.
   *
   * @param numeralSlope how far the readings of a numeral are told apart: the power of their
   *     probabilities
   * @param oneFigure of all misread numerals, the share with just one figure wrong
   * @param figureMore of all misread numerals, the share with one figure lost or added
   */
  public record Numerals(double numeralSlope, double oneFigure, double figureMore) {}

  /**
   * Where counting starts again, or bars are missing.
   *
   * @param restartAtHeading counting starts again under the heading of a musical number
   * @param restartAfterFinal likewise after a final barline without a heading
   * @param restartElsewhere likewise at any other line
   * @param pickup share of numbers that start with a pickup
   * @param missedSystem a line was not found, so that the numbers go on up to so many bars later;
   *     the most stands in the settings
   * @param missingPages bars are missing between two lines, for each number to go on at
   */
  public record Restarts(
      double restartAtHeading,
      double restartAfterFinal,
      double restartElsewhere,
      double pickup,
      double missedSystem,
      double missingPages) {}

  private static final CostSettings.Bounds SET = ReckonSettings.STANDARD.cost().bounds();

  /** What stands beside a line tells no more than this; nats. */
  public static final double MOST_AROUND = SET.mostAround();

  /** The shipped ones, {@code costs.json}. */
  public static final Costs DEFAULT = load();

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
   * @param cell what it shows
   */
  public double missed(GapEvidence cell) {
    double odds = gaps.missedLine() / (1 - gaps.missedLine()) * Math.exp(twoBars(cell));
    boolean erring = gaps.mostMissed() >= SET.mostMissed();
    double most = erring && cell.fill().known() ? SET.mostFilled() : gaps.mostMissed();
    return Math.min(most, odds / (1 + odds));
  }

  /** Logarithm of the odds that a cell is two bars, against the usual share. */
  private double twoBars(GapEvidence cell) {
    double o = cell.octaves();
    double log =
        switch (cell.holds()) {
          case MUSIC ->
              gaps.widthBias()
                  + gaps.perOctave() * o
                  + gaps.perSquare() * o * o
                  + gaps.perOctaveOnPage() * cell.onPage()
                  + (cell.first() ? gaps.firstOfLine() : 0);
          case SIGN -> gaps.besideSign() + gaps.besideOctave() * o;
          case SIGNS -> gaps.twoSigns();
        };
    log = beats.twoBars(cell.fill(), log);
    log += cell.marked() ? gaps.markedCell() : 0;
    return log
        + (cell.trace() > 0 ? gaps.traceBias() + gaps.traceSlope() * logit(cell.trace()) : 0);
  }

  /**
   * How likely a second barline was missed in a cell in which one was.
   *
   * @param cell what it shows
   * @param missed how likely that one was
   */
  public double missedTwo(GapEvidence cell, double missed) {
    if (!cell.fill().known()) {
      return (1 - missed) * missed / 2;
    }
    boolean three = cell.fill().bars() == Fill.Bars.THREE;
    double odds =
        gaps.missedLine() / (1 - gaps.missedLine()) * (three ? Math.exp(beats.third()) : 1);
    return odds / (1 + odds);
  }

  /**
   * How likely a line is a barline.
   *
   * @param read the reader's own probability; of a line without ink the share of such lines that
   *     are one
   * @param ink whether the line is there to be read
   * @param around what stands beside it; it speaks against any line, but makes none a barline that
   *     the reader took for none
   */
  public double line(double read, boolean ink, LineEvidence around) {
    double p = Math.max(floor, Math.min(1 - floor, read));
    double odds = p / (1 - p);
    if (ink) {
      odds = Math.exp(lines.lineBias()) * Math.pow(odds, lines.lineSlope());
    }
    // As with a line nobody saw: the room beside one that the reader took for none can make the
    // book's numbers find it, but is no reason of its own to divide a bar.
    double most = odds < 1 ? gaps.mostMissed() / (1 - gaps.mostMissed()) : Double.POSITIVE_INFINITY;
    odds *=
        Math.min(
                1,
                Math.pow(
                    Math.max(SET.leastBeside(), around.beside()) / lines.narrow(),
                    lines.narrowPower()))
            * (around.inside() ? lines.insideRest() : 1);
    double joined = around.joined().map(this::twoBars).orElse(0.0);
    double log =
        around.filled()
            ? beats.around(around, joined)
            : lines.aroundBias() + lines.joinedShare() * joined;
    log += around.off().map(o -> lines.offMiddle() + lines.offOctave() * o).orElse(0.0);
    double against = around.cut() ? SET.mostAtRepeat() : SET.mostAround();
    odds *= Math.exp(Math.max(-against, Math.min(SET.mostAround(), log)));
    odds = Math.min(most, odds);
    return odds / (1 + odds);
  }

  /** Tells whether the reader took a line for a barline, whatever the book says. */
  public boolean believes(double read) {
    return lines.lineBias() + lines.lineSlope() * logit(read) >= 0;
  }

  /** How likely a rest of several bars, or a numeral without one, is one. */
  public double rest(RestEvidence rest) {
    double bias =
        !rest.seen()
            ? rests.numeralAlone()
            : rest.numeral().isPresent() ? rests.restNumbered() : rests.restBare();
    return logistic(bias + rests.restSlope() * logit(rest.sign().probability()));
  }

  /**
   * How likely a bar number, or a mark that says one, is one.
   *
   * @param inside whether it stands inside a line: the corpus has few bar numbers there, too few to
   *     be surer than the reader
   */
  public double number(Sign sign, boolean inside) {
    double read = sign.probability();
    double likely = logistic(numbers.numberBias() + numbers.numberSlope() * logit(read));
    return inside && sign.kind() == SignKind.BAR_NUMBER ? Math.min(likely, read) : likely;
  }

  private double logistic(double x) {
    return Math.max(floor, Math.min(1 - floor, 1 / (1 + Math.exp(-x))));
  }

  private static double logit(double p) {
    double inside = Math.max(SET.least(), Math.min(1 - SET.least(), p));
    return Math.log(inside / (1 - inside));
  }

  /** The same with other shares of errors. */
  public Costs withRates(double missed, double count, double number) {
    return new Costs(
        gaps.with(missed),
        lines,
        rests.with(count),
        numbers.with(number),
        numerals,
        restarts,
        floor,
        strength,
        doubt,
        beats);
  }
}
