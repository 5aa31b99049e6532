package org.barmap.fit;

import java.util.List;
import java.util.Optional;

/**
 * What barlines that the reader missed left in its network's heat, as {@code TracesTest} measured
 * it on the corpus's pages and on worse copies of them.
 *
 * @param measured the day
 * @param copies kinds of copies
 */
record Traces(String measured, List<Copy> copies) {

  /** Kind of copy whose ink is gone in places. */
  static final String DROPPED = "dropped out";

  /** Kind of copy that is the page as it is in the corpus. */
  static final String AS_IS = "as they are";

  private static final Traces MEASURED = Measured.load("traces.json", Traces.class);

  /**
   * One kind of copy.
   *
   * @param lines true barlines inside a line that were looked at
   * @param missed of these, the missed ones whose neighbours on the line were read
   * @param left the reader's probabilities at those of them that left a peak
   * @param none the same of peaks where no barline is
   */
  record Copy(String kind, int lines, int missed, List<Double> left, List<Double> none) {}

  /** All peaks that missed barlines left where the ink was there. */
  static List<Double> left() {
    return MEASURED.copies.stream()
        .filter(c -> !c.kind().equals(DROPPED))
        .flatMap(c -> c.left().stream())
        .toList();
  }

  /** Share of missed barlines that leave a peak where the ink is there. */
  static double share() {
    int missed =
        MEASURED.copies.stream()
            .filter(c -> !c.kind().equals(DROPPED))
            .mapToInt(Copy::missed)
            .sum();
    return Likelihood.share(left().size(), missed);
  }

  /** What a missed barline leaves; {@code u} is evenly drawn from 0 to 1. */
  static Optional<Double> left(double u) {
    List<Double> all = left();
    return u >= share() ? Optional.empty() : Optional.of(all.get((int) (u / share() * all.size())));
  }

  /** The peak in a cell where no barline is, if there is one. */
  static Optional<Double> none(double u) {
    Copy page = MEASURED.copies.stream().filter(c -> c.kind().equals(AS_IS)).findFirst().get();
    int i = (int) (u * page.lines());
    return i < page.none().size() ? Optional.of(page.none().get(i)) : Optional.empty();
  }
}
