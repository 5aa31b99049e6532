package org.barmap.reckon.set;

/**
 * A second reading of the same music as evidence.
 *
 * <p>Costs are in nats. They are not fitted, because the errors of programs that write such
 * readings weren't measured: where no other reason stands beside a value it is from memory.
 *
 * @param partners what it costs to say that bars of a second reading belong to an entry
 * @param bars bars that only one of the two has
 * @param marks marks that differ
 * @param numbers bar numbers that differ
 * @param trust how far it is believed
 * @param otherMusic when it is of other music
 * @param otherChair when it is another chair's part
 */
public record SecondSettings(
    Partners partners,
    Bars bars,
    SaidMarks marks,
    SaidNumbers numbers,
    Trust trust,
    OtherMusic otherMusic,
    OtherChair otherChair) {

  /**
   * What it costs to say that bars of a second reading belong to an entry; below 0 what speaks for
   * it.
   *
   * @param noPartner a bar without a partner, on either side
   * @param oneMore each further one in a row: one cause takes one run of bars
   * @param oneMoreBetween the same between musical numbers: scores hold numbers that a player rests
   *     in
   * @param between how much less a run costs that begins where a musical number does: it may be
   *     left out
   * @param uncounted a bar that the source itself does not count: half of one split at a repeat
   * @param besideRest how much less a missing bar costs beside a rest: bars are miscounted there
   * @param wide how much less a bar more costs where the page has one twice as wide, at most
   * @param misreadCount a rest whose numeral was misread: rests are misread more often than
   *     barlines
   * @param offBy how much more for each bar that it is off by
   * @param moreFigures how much more where more than one figure is wrong
   * @param leastCount a reading of its numeral counts as no less likely
   * @param longer a rest takes half as many bars again as it says, and this many more, at most
   * @param wrongContent a rest against a bar of music; cue notes and doublings make them differ at
   *     times
   * @param wrongRest the most that a rest of the right length costs against bars of music
   * @param agreed a length that costs less is one the page may have
   * @param wrongMark two different marks
   * @param noMark a mark that only one of them has
   * @param wrongMeter two meters
   * @param sameMark the same mark
   * @param sameRest a rest of several bars, as long
   * @param sameNumber the same printed number
   * @param sameJump the source's numbers jump to the one that is counted
   * @param sameStart a musical number begins in both
   * @param wrongStart or in one
   * @param sameLine the same repeat, double barline or ending; a part and its score differ in them
   *     at times
   * @param wrongLine another one
   */
  public record Partners(
      double noPartner,
      double oneMore,
      double oneMoreBetween,
      double between,
      double uncounted,
      double besideRest,
      double wide,
      double misreadCount,
      double offBy,
      double moreFigures,
      double leastCount,
      int longer,
      double wrongContent,
      double wrongRest,
      double agreed,
      double wrongMark,
      double noMark,
      double wrongMeter,
      double sameMark,
      double sameRest,
      double sameNumber,
      double sameJump,
      double sameStart,
      double wrongStart,
      double sameLine,
      double wrongLine) {}

  /**
   * Bars that only one of the two has.
   *
   * @param beyond more bars than this before or after all pages: the pages are a part of the book
   */
  public record Bars(int beyond) {}

  /**
   * Marks that differ.
   *
   * @param otherwise more differences than this, and than marks that agree: the source names its
   *     marks otherwise
   * @param near how many entries apart the same mark may be told as one that moved
   */
  public record SaidMarks(int otherwise, int near) {}

  /**
   * Bar numbers that differ.
   *
   * @param otherwise more of them than this: the source is numbered otherwise, and nothing is told
   * @param back a number goes on from one less than so many bars before
   * @param contradicted more printed numbers than this that it contradicts, and more than it agrees
   *     with: it says nothing about numbers
   * @param printed a printed number likelier than this counts in that: even odds
   */
  public record SaidNumbers(int otherwise, int back, int contradicted, double printed) {}

  /**
   * How far it is believed.
   *
   * @param trust probability that it is right where it contradicts the page. With a tenth of the
   *     second reading wrong 99.5 % of bars got their right number, with 0.9 it was 99.8 %; without
   *     errors 100 % (report on the reckoning of 2026-11-25)
   * @param number how often a number is right where a source begins or jumps; sources that are
   *     numbered otherwise are left out before
   * @param least the trust is no less than this, and no more than what it leaves
   * @param unlisted that a numeral says what no reading of it lists, at least
   * @param unlistedSeen the same where the second reading is another reader's of the same pages: it
   *     sees what we see, so where our numeral is clear the error is likelier its own. With 0.02,
   *     two errors of a reader that errs in a tenth could outvote two right numerals (report on
   *     engines of 2026-11-29)
   * @param unlistedCounts counts among which that is shared out
   */
  public record Trust(
      double trust,
      double number,
      double least,
      double unlisted,
      double unlistedSeen,
      int unlistedCounts) {}

  /**
   * When it is of other music.
   *
   * @param doubts more doubts than this
   * @param doubtsShare and than this part of the entries, as its divisor
   * @param pairs more pairs than this
   * @param meters and a larger share of them in another meter
   * @param marks more marks than this in both
   * @param marksShare and a smaller share of them at the same entry
   */
  public record OtherMusic(
      int doubts, int doubtsShare, int pairs, double meters, int marks, double marksShare) {}

  /**
   * When it is another chair's part.
   *
   * @param played so many long rests at least are played through
   * @param part and this part of all, as its divisor
   */
  public record OtherChair(int played, int part) {}

  static SecondSettings standard() {
    return new SecondSettings(
        standardPartners(),
        standardBars(),
        standardSaidMarks(),
        standardSaidNumbers(),
        standardTrust(),
        standardOtherMusic(),
        standardOtherChair());
  }

  private static Partners standardPartners() {
    return new Partners(
        /* noPartner= */ 3,
        /* oneMore= */ 0.15,
        /* oneMoreBetween= */ 0.05,
        /* between= */ 0.4,
        /* uncounted= */ 0.3,
        /* besideRest= */ 0.2,
        /* wide= */ 0.3,
        /* misreadCount= */ 2.5,
        /* offBy= */ 0.05,
        /* moreFigures= */ 0.5,
        /* leastCount= */ 0.05,
        /* longer= */ 60,
        /* wrongContent= */ 0.7,
        /* wrongRest= */ 2.5,
        /* agreed= */ 1,
        /* wrongMark= */ 4,
        /* noMark= */ 1.5,
        /* wrongMeter= */ 2,
        /* sameMark= */ -2,
        /* sameRest= */ -1,
        /* sameNumber= */ -1.5,
        /* sameJump= */ -1,
        /* sameStart= */ -1.5,
        /* wrongStart= */ 1.5,
        /* sameLine= */ -0.7,
        /* wrongLine= */ 0.5);
  }

  private static Bars standardBars() {
    return new Bars(/* beyond= */ 8);
  }

  private static SaidMarks standardSaidMarks() {
    return new SaidMarks(/* otherwise= */ 5, /* near= */ 3);
  }

  private static SaidNumbers standardSaidNumbers() {
    return new SaidNumbers(
        /* otherwise= */ 4, /* back= */ 5, /* contradicted= */ 2, /* printed= */ 0.5);
  }

  private static Trust standardTrust() {
    return new Trust(
        /* trust= */ 0.5,
        /* number= */ 0.9,
        /* least= */ 0.01,
        /* unlisted= */ 0.02,
        /* unlistedSeen= */ 0.002,
        /* unlistedCounts= */ 10);
  }

  private static OtherMusic standardOtherMusic() {
    return new OtherMusic(
        /* doubts= */ 5,
        /* doubtsShare= */ 6,
        /* pairs= */ 8,
        /* meters= */ 0.3,
        /* marks= */ 4,
        /* marksShare= */ 0.5);
  }

  private static OtherChair standardOtherChair() {
    return new OtherChair(/* played= */ 3, /* part= */ 2);
  }
}
