package org.barmap.staff;

import java.util.ArrayList;
import java.util.List;
import org.barmap.page.PageImage;

/** Puts staves joined by a line at their left end together. */
final class Systems {

  private Systems() {}

  /** Groups staves given from top to bottom. */
  static List<FoundSystem> group(PageImage page, Pixels pixels, List<Candidate> staves) {
    List<List<Candidate>> groups = new ArrayList<>();
    for (Candidate staff : staves) {
      List<Candidate> last = groups.isEmpty() ? List.of() : groups.get(groups.size() - 1);
      if (!last.isEmpty() && joined(pixels, last.get(last.size() - 1).staff(), staff.staff())) {
        last.add(staff);
      } else {
        groups.add(new ArrayList<>(List.of(staff)));
      }
    }
    List<FoundSystem> systems = new ArrayList<>();
    for (List<Candidate> group : groups) {
      double seen = group.stream().mapToDouble(Candidate::weakest).min().orElse(0);
      List<Staff> all = group.stream().map(Candidate::staff).toList();
      systems.add(new FoundSystem(page, systems.size() + 1, all, seen));
    }
    return systems;
  }

  /** Tells whether one dark stroke runs from the upper staff's left end to the lower one's. */
  private static boolean joined(Pixels pixels, Staff upper, Staff lower) {
    double s = upper.usualSpace();
    double xTop = upper.left();
    double xBottom = lower.left();
    double top = upper.middleAt(xTop) + 2 * upper.spaceAt(xTop);
    double bottom = lower.middleAt(xBottom) - 2 * lower.spaceAt(xBottom);
    if (Math.abs(xTop - xBottom) > 2.5 * s || bottom < top || bottom - top > 18 * s) {
      return false;
    }
    for (double d = -1.2 * s; d <= 1.0 * s; d++) {
      int dark = 0;
      int all = 0;
      for (double y = top; y <= bottom; y++) {
        double x = xTop + d + (xBottom - xTop) * (y - top) / (bottom - top);
        int ink = Math.min(pixels.at(x, y), Math.min(pixels.at(x - 1, y), pixels.at(x + 1, y)));
        dark += ink < 150 ? 1 : 0;
        all++;
      }
      if (dark >= 0.93 * all) {
        return true;
      }
    }
    return false;
  }
}
