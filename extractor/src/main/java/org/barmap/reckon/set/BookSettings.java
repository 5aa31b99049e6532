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
 * @param counting which numbers of bars are marks
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
    Counting counting,
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
   * @param even reader's probability at which a bare text is a mark as often as not: bare marks of
   *     the real print and of made pages with bare marks (0.5 to 0.6: 8 of 14 were none, 0.6 to
   *     0.7: 4 of 22, above: 2 of 67)
   * @param per logarithm of odds that it gains for a whole unit of that probability, likewise
   * @param most of those odds, logarithm
   * @param framed the same for a text in a frame (of 160 none was a letter of a word): so much that
   *     it is never dropped for what it says
   * @param styled framed marks of a book that tell how its marks are drawn
   * @param style share of its marks that they are at least
   * @param unframed share of their height below which a bare one has no frame
   * @param otherStyle what such a one then loses, logarithm of odds
   * @param noise how likely what is no mark says any one thing: one of some thirty
   * @param passed texts in a row that may be no marks
   */
  public record MarkOrder(
      double follows,
      double skips,
      double starts,
      double anything,
      double unlisted,
      int leastUnlisted,
      int unlistedShare,
      double even,
      double per,
      double most,
      double framed,
      int styled,
      double style,
      double unframed,
      double otherStyle,
      double noise,
      int passed) {}

  /**
   * Which numbers of bars are marks, and which only count.
   *
   * @param every bars numbered in houses that number some: every fifth, or tenth
   * @param habit odds that a book is of such a house, logarithm: from memory, one in thirty
   * @param onFives what a bare number over such a bar adds: 0.95 of theirs are, one in four marks
   * @param besideFives and over any other bar
   * @param unsure a bare number seen less surely than this is no mark where it says another bar
   * @param read readings likelier than this count for what it says
   */
  public record Counting(
      int every, double habit, double onFives, double besideFives, double unsure, double read) {}

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
        standardCounting(),
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

  private static Counting standardCounting() {
    return new Counting(
        /* every= */ 5,
        /* habit= */ -Math.log(30),
        /* onFives= */ Math.log(0.95 / 0.25),
        /* besideFives= */ Math.log(0.05 / 0.75),
        /* unsure= */ 0.6,
        /* read= */ 0.02);
  }

  private static MarkOrder standardMarkOrder() {
    return new MarkOrder(
        /* follows= */ 0.9,
        /* skips= */ 0.03,
        /* starts= */ 0.02,
        /* anything= */ 1e-3,
        /* unlisted= */ 2e-3,
        /* leastUnlisted= */ 10,
        /* unlistedShare= */ 5,
        /* even= */ 0.575,
        /* per= */ 16,
        /* most= */ 3.5,
        /* framed= */ 12,
        /* styled= */ 3,
        /* style= */ 0.8,
        /* unframed= */ 0.75,
        /* otherStyle= */ 2.3,
        /* noise= */ 1 / 30.0,
        /* passed= */ 4);
  }
}
