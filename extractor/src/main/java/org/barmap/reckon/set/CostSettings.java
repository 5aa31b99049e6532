package org.barmap.reckon.set;

/**
 * What bounds the costs; the costs themselves are fitted and stand in {@code costs.json}.
 *
 * <p>None of these is fitted; where no other reason stands beside one it is from memory.
 *
 * @param bounds how far evidence is believed
 * @param calibrating how sure what the map says is
 */
public record CostSettings(Bounds bounds, Calibrating calibrating) {

  /**
   * How far evidence is believed.
   *
   * @param numbers bar numbers a misread print may say, all alike
   * @param counts counts a misread rest may say, all alike
   * @param leastSystem bars that a line that was not found may have had, at least; nearly every
   *     line of the corpus has more
   * @param mostSystem and at most
   * @param mostMissed however wide a cell is, in a book that errs more than usual, it is no
   *     likelier to miss a barline
   * @param mostFilled likewise where it is known what its notes add up to
   * @param mostAround what stands beside a line tells no more than this; nats. The costs around a
   *     line are fitted with it
   * @param mostAtRepeat what stands beside a repeat tells no more than this against it, nats: bars
   *     are cut in two at about one in seven (common practice where tunes begin with an upbeat;
   *     from memory)
   * @param leastBeside a narrower cell counts as this share of the usual width
   * @param least a reader's probability counts as no less than this, and no more than what it
   *     leaves
   */
  public record Bounds(
      int numbers,
      int counts,
      int leastSystem,
      int mostSystem,
      double mostMissed,
      double mostFilled,
      double mostAround,
      double mostAtRepeat,
      double leastBeside,
      double least) {}

  /**
   * How sure what the map says is.
   *
   * @param least as in {@link Bounds}
   * @param narrowest width between two knots at least, against a division by zero
   */
  public record Calibrating(double least, double narrowest) {}

  static CostSettings standard() {
    return new CostSettings(standardBounds(), standardCalibrating());
  }

  private static Bounds standardBounds() {
    return new Bounds(
        /* numbers= */ 300,
        /* counts= */ 120,
        /* leastSystem= */ 3,
        /* mostSystem= */ 40,
        /* mostMissed= */ 0.9,
        /* mostFilled= */ 0.99,
        /* mostAround= */ 6,
        /* mostAtRepeat= */ 2,
        /* leastBeside= */ 0.02,
        /* least= */ 0.01);
  }

  private static Calibrating standardCalibrating() {
    return new Calibrating(/* least= */ 0.01, /* narrowest= */ 1e-9);
  }
}
