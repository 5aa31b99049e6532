package org.barmap.staff;

import java.util.Optional;

/**
 * A staff that may be one.
 *
 * @param staff its curve
 * @param weakest share of its length in which its weakest line is seen
 * @param mean the same over its five lines
 * @param between the most that is seen half way between lines
 * @param beyond the more that is seen of a sixth line, above or below
 */
record Candidate(Staff staff, double weakest, double mean, double between, double beyond) {

  static Optional<Candidate> of(LineBlocks lines, Pixels pixels, Tracks.Track track, double space) {
    if (track.y().length * LineBlocks.WIDTH < 4 * space) {
      return Optional.empty();
    }
    StaffFit fit = StaffFit.of(lines, track, space);
    for (int i = 0; i < 2; i++) {
      double above = fit.coverage(-3);
      double below = fit.coverage(3);
      // The five best of the lines in sight are the staff.
      if (above > fit.coverage(2) + 0.15) {
        fit.moveBy(-1);
      } else if (below > fit.coverage(-2) + 0.15) {
        fit.moveBy(1);
      }
    }
    double weakest = 1;
    double mean = 0;
    for (int k = -2; k <= 2; k++) {
      double c = fit.coverage(k);
      weakest = Math.min(weakest, c);
      mean += c / 5;
    }
    double between = 0;
    for (int k = -3; k <= 3; k += 2) {
      between = Math.max(between, fit.coverage(k / 2.0));
    }
    double beyond = Math.max(fit.coverage(-3), fit.coverage(3));
    Staff staff = new StaffEnds(pixels, lines.contrast()).staff(fit);
    return Optional.of(new Candidate(staff, weakest, mean, between, beyond));
  }

  /** Says its figures in one line, for those who tune the checks. */
  String describe() {
    return String.format(
        java.util.Locale.ROOT,
        "x %.0f-%.0f y %.0f space %.2f length %.1f weakest %.2f mean %.2f between %.2f beyond %.2f",
        staff.left(),
        staff.right(),
        staff.middleAt(staff.left()),
        staff.usualSpace(),
        staff.length(),
        weakest,
        mean,
        between,
        beyond);
  }
}
