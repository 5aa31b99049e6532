package org.barmap.staff;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * A staff that may be one.
 *
 * @param staff its curve
 * @param weakest share of its length in which its weakest line is seen where it can be
 * @param mean share of its length in which a line is seen, over its five lines
 * @param between the most that is seen half way between lines
 * @param beyond the more that is seen of a sixth line, above or below, where it can be
 * @param uneven how far its lines lie from equal distances, staff spaces
 */
record Candidate(
    Staff staff, double weakest, double mean, double between, double beyond, double uneven) {

  private static final StaffSettings.Checks SET = StaffSettings.STANDARD.checks();

  static Optional<Candidate> of(LineBlocks lines, Pixels pixels, Tracks.Track track, double space) {
    if (track.y().length * LineBlocks.WIDTH < StaffSettings.STANDARD.fit().leastLength() * space) {
      return Optional.empty();
    }
    StaffFit fit = StaffFit.of(lines, track, space);
    double weakest = 1;
    double mean = 0;
    for (int k = -2; k <= 2; k++) {
      double c = fit.coverage(k);
      weakest = Math.min(weakest, fit.visible(k));
      mean += c / Staff.LINES;
    }
    double between = 0;
    for (int k = -Staff.SIXTH; k <= Staff.SIXTH; k += 2) {
      between = Math.max(between, fit.coverage(k / 2.0));
    }
    double beyond = Math.max(fit.visible(-Staff.SIXTH), fit.visible(Staff.SIXTH));
    Staff staff = new StaffEnds(pixels, lines).staff(fit);
    return Optional.of(new Candidate(staff, weakest, mean, between, beyond, fit.unevenness()));
  }

  /** Returns those that are staves, and not what only looks like one. */
  static List<Candidate> good(List<Candidate> candidates) {
    List<Candidate> good = new ArrayList<>();
    for (Candidate c : candidates) {
      if (c.looksLikeStaff()) {
        good.add(c);
      }
    }
    double usual = usualSpace(good);
    good.removeIf(c -> c.staff().usualSpace() < SET.small() * usual);
    good.removeIf(c -> c.staff().usualSpace() > SET.large() * usual);
    return good;
  }

  private boolean looksLikeStaff() {
    return staff.length() >= SET.leastLength()
        && mean >= SET.leastMean()
        && weakest >= SET.leastWeakest()
        && weakest + mean >= SET.leastBoth()
        && uneven <= SET.mostUneven()
        && between < SET.mostBetween() * mean
        && (beyond < SET.sixth() || beyond < SET.sixthShare() * weakest);
  }

  /** Returns the staff space of which half the staff length on the page is no larger. */
  private static double usualSpace(List<Candidate> staves) {
    List<Staff> sorted =
        staves.stream()
            .map(Candidate::staff)
            .sorted(java.util.Comparator.comparingDouble(Staff::usualSpace))
            .toList();
    double total = sorted.stream().mapToDouble(Staff::length).sum();
    double seen = 0;
    for (Staff s : sorted) {
      seen += s.length();
      if (seen >= total / 2) {
        return s.usualSpace();
      }
    }
    return 0;
  }

  /** Says its figures in one line, for those who tune the checks. */
  String describe() {
    return String.format(
        java.util.Locale.ROOT,
        "x %.0f-%.0f y %.0f space %.2f length %.1f weakest %.2f mean %.2f between %.2f beyond %.2f uneven %.3f",
        staff.left(),
        staff.right(),
        staff.middleAt(staff.left()),
        staff.usualSpace(),
        staff.length(),
        weakest,
        mean,
        between,
        beyond,
        uneven);
  }
}
