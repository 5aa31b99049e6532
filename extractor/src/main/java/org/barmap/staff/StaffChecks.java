package org.barmap.staff;

import java.util.ArrayList;
import java.util.List;

/** Tells staves from what only looks like one. */
final class StaffChecks {

  private static final double LEAST_LENGTH = 7;
  private static final double LEAST_MEAN = 0.5;
  private static final double LEAST_WEAKEST = 0.45;
  private static final double LEAST_BOTH = 1.0;
  private static final double MOST_UNEVEN = 0.085;

  /** A staff this much smaller than the usual one is a cue or an ossia. */
  private static final double SMALL = 0.8;

  private StaffChecks() {}

  static List<Candidate> keep(List<Candidate> candidates) {
    List<Candidate> good = new ArrayList<>();
    for (Candidate c : candidates) {
      if (looksLikeStaff(c)) {
        good.add(c);
      }
    }
    double usual = usualSpace(good);
    good.removeIf(c -> c.staff().usualSpace() < SMALL * usual);
    good.removeIf(c -> c.staff().usualSpace() > 1.5 * usual);
    return good;
  }

  private static boolean looksLikeStaff(Candidate c) {
    return c.staff().length() >= LEAST_LENGTH
        && c.mean() >= LEAST_MEAN
        && c.weakest() >= LEAST_WEAKEST
        && c.weakest() + c.mean() >= LEAST_BOTH
        && c.uneven() <= MOST_UNEVEN
        && c.between() < 0.6 * c.mean()
        && (c.beyond() < 0.55 || c.beyond() < 0.9 * c.weakest());
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
}
