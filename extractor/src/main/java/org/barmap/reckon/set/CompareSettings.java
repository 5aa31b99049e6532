package org.barmap.reckon.set;

/**
 * Two books laid beside each other.
 *
 * <p>Costs are in nats. None is fitted, because errors in two readings of one book were never
 * collected: they are from memory, not measured.
 *
 * @param limits how much is looked at
 * @param singles what it costs to say that bars of two parts are the same
 * @param certainty which of two parts is likelier wrong
 */
public record CompareSettings(Limits limits, Singles singles, Certainty certainty) {

  /**
   * How much is looked at.
   *
   * @param most items of the second that one of the first can take
   * @param all up to so many cells all of them are looked at
   * @param tooMany more cells than this are not worth the time: the sequences can't be of the same
   *     music
   * @param band how far from the diagonal to look, beyond the difference in length
   */
  public record Limits(int most, long all, long tooMany, int band) {}

  /**
   * What it costs to say that bars of two parts are the same; below 0 what speaks for it.
   *
   * @param gap a bar that only one has
   * @param oneMore each further one in a row
   * @param sameMark both have the same mark
   * @param wrongMark they have two different ones
   * @param noMark only one has a mark: parts leave marks out, in long rests mostly
   * @param wrongMeter they have two meters
   * @param wrongSign only one has a repeat, segno or coda
   * @param sameSign both have it
   */
  public record Singles(
      double gap,
      double oneMore,
      double sameMark,
      double wrongMark,
      double noMark,
      double wrongMeter,
      double wrongSign,
      double sameSign) {}

  /**
   * Which of two parts is likelier wrong.
   *
   * @param equal two parts are equally sure of what differs when their certainties are this close
   * @param doubted what an open doubt leaves of how sure a bar is
   * @param around how far from a place the cause of a bar more or less may be, where no mark
   *     stands; bars
   * @param printed share of its doubts that a printed number leaves a part that agrees with it
   */
  public record Certainty(double equal, double doubted, int around, double printed) {}

  static CompareSettings standard() {
    return new CompareSettings(standardLimits(), standardSingles(), standardCertainty());
  }

  private static Limits standardLimits() {
    return new Limits(
        /* most= */ 1000, /* all= */ 4_000_000L, /* tooMany= */ 50_000_000L, /* band= */ 600);
  }

  private static Singles standardSingles() {
    return new Singles(
        /* gap= */ 3,
        /* oneMore= */ 0.3,
        /* sameMark= */ -3,
        /* wrongMark= */ 4,
        /* noMark= */ 1.4,
        /* wrongMeter= */ 1.5,
        /* wrongSign= */ 1,
        /* sameSign= */ -0.7);
  }

  private static Certainty standardCertainty() {
    return new Certainty(
        /* equal= */ 0.02, /* doubted= */ 0.6, /* around= */ 8, /* printed= */ 0.3);
  }
}
