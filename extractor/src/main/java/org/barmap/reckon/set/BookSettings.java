package org.barmap.reckon.set;

/**
 * The model of one book.
 *
 * <p>The corpus is of single pages, which say nothing about most of these: where no other reason
 * stands beside a value it is from memory.
 *
 * @param model which bar numbers are told apart, and what marks that are numbers mean
 * @param steps steps of the book whose weights are not fitted
 * @param numerals what a misread numeral may have been
 * @param rates a book's own rates of errors
 * @param numbering whether second endings are numbered like the first
 * @param endings which endings belong together
 * @param marks how rehearsal marks follow each other
 * @param again a map settled again after people corrected it
 */
public record BookSettings(
    Model model,
    Steps steps,
    Numerals numerals,
    Rates rates,
    Numbering numbering,
    EndingPairs endings,
    MarkOrder marks,
    Again again) {

  /**
   * Which bar numbers are told apart, and what marks that are numbers mean.
   *
   * @param leastStates bar numbers told apart, beyond the largest that is meant
   * @param mostStates bar numbers told apart at most: time and memory grow with them
   * @param meant a printed number likelier than this may be meant
   * @param anyStart weight of any one number but 1 for the first bar of the book, against 1
   * @param nextMark share of marks 1, 2, 3 … that follow the one before, or begin again
   * @param anyMark share of those that are anything
   */
  public record Model(
      int leastStates,
      int mostStates,
      double meant,
      double anyStart,
      double nextMark,
      double anyMark) {}

  /**
   * Steps of the book whose weights are not fitted.
   *
   * @param twoBesideRest a second barline missed in a cell with a rest, against the first one
   * @param lettered that a bar called "24A" is part of 24
   * @param letteredCounts that it counts as a bar of its own
   */
  public record Steps(double twoBesideRest, double lettered, double letteredCounts) {}

  /**
   * What a misread numeral may have been.
   *
   * @param mostNumber largest bar number that a numeral with a figure lost may have been
   * @param mostCount and largest count of a rest
   * @param tiny weight of all readings at least, against a division by zero
   */
  public record Numerals(int mostNumber, int mostCount, double tiny) {}

  /**
   * A book's own rates of errors.
   *
   * @param more a book that errs this many times as often as the corpus is settled again with its
   *     own rates
   */
  public record Rates(double more) {}

  /**
   * Whether second endings are numbered like the first.
   *
   * @param books one book in so many does so
   * @param likelier and the print has to make it this many times as likely as not
   */
  public record Numbering(int books, int likelier) {}

  /**
   * Which endings belong together.
   *
   * @param longest an ending and the one before it begin at most this many cells apart
   * @param there a bracket, or a heading, is there when the reader gives it this much: even odds
   */
  public record EndingPairs(int longest, double there) {}

  /**
   * How rehearsal marks follow each other. Which letters a house skips was decided by the makers of
   * the corpus's pages, so it is no source for them.
   *
   * @param follows probability that a mark is the next one
   * @param skips that one was skipped, or more where they are numbers
   * @param starts that they begin again without a new musical number
   * @param anything that it is any other one
   * @param unlisted what its neighbours make of a mark is believed no more than this where the
   *     reader did not list it; nor is a listed reading believed less
   * @param leastUnlisted and no less than this part of that, as its divisor
   * @param unlistedShare it takes this part, as its divisor, of what the listed readings leave
   */
  public record MarkOrder(
      double follows,
      double skips,
      double starts,
      double anything,
      double unlisted,
      int leastUnlisted,
      int unlistedShare) {}

  /**
   * A map settled again after people corrected it: from memory, not measured.
   *
   * @param more bar numbers told apart beyond the largest one in the map
   * @param hardly weight of any number but the first where one starts
   */
  public record Again(int more, double hardly) {}

  static BookSettings standard() {
    return new BookSettings(
        standardModel(),
        standardSteps(),
        standardNumerals(),
        standardRates(),
        standardNumbering(),
        standardEndingPairs(),
        standardMarkOrder(),
        standardAgain());
  }

  private static Model standardModel() {
    return new Model(
        /* leastStates= */ 130,
        /* mostStates= */ 4000,
        /* meant= */ 0.05,
        /* anyStart= */ 1e-3,
        /* nextMark= */ 0.9,
        /* anyMark= */ 0.1);
  }

  private static Steps standardSteps() {
    return new Steps(/* twoBesideRest= */ 0.01, /* lettered= */ 0.9, /* letteredCounts= */ 0.1);
  }

  private static Numerals standardNumerals() {
    return new Numerals(/* mostNumber= */ 999, /* mostCount= */ 99, /* tiny= */ 1e-6);
  }

  private static Rates standardRates() {
    return new Rates(/* more= */ 2);
  }

  private static Numbering standardNumbering() {
    return new Numbering(/* books= */ 50, /* likelier= */ 20);
  }

  private static EndingPairs standardEndingPairs() {
    return new EndingPairs(/* longest= */ 40, /* there= */ 0.5);
  }

  private static Again standardAgain() {
    return new Again(/* more= */ 300, /* hardly= */ 1e-6);
  }

  private static MarkOrder standardMarkOrder() {
    return new MarkOrder(
        /* follows= */ 0.9,
        /* skips= */ 0.03,
        /* starts= */ 0.02,
        /* anything= */ 1e-3,
        /* unlisted= */ 2e-3,
        /* leastUnlisted= */ 10,
        /* unlistedShare= */ 5);
  }
}
