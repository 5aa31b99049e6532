package org.barmap.staff;

import java.util.ArrayList;
import java.util.List;

/** Tells staves from what only looks like one. */
final class StaffChecks {

  private static final StaffSettings.Checks SET = StaffSettings.STANDARD.checks();

  private StaffChecks() {}

  static List<Candidate> keep(List<Candidate> candidates) {
    List<Candidate> good = new ArrayList<>();
    for (Candidate c : candidates) {
      if (looksLikeStaff(c)) {
        good.add(c);
      }
    }
    double usual = usualSpace(good);
    good.removeIf(c -> c.staff().usualSpace() < SET.small() * usual);
    good.removeIf(c -> c.staff().usualSpace() > SET.large() * usual);
    return good;
  }

  private static boolean looksLikeStaff(Candidate c) {
    return c.staff().length() >= SET.leastLength()
        && c.mean() >= SET.leastMean()
        && c.weakest() >= SET.leastWeakest()
        && c.weakest() + c.mean() >= SET.leastBoth()
        && c.uneven() <= SET.mostUneven()
        && c.between() < SET.mostBetween() * c.mean()
        && (c.beyond() < SET.sixth() || c.beyond() < SET.sixthShare() * c.weakest());
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
