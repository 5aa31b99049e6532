package org.barmap.staff;

import java.util.ArrayList;
import java.util.List;
import org.barmap.page.PageImage;

/** Puts staves joined by a line at their left end, or by their barlines, together. */
final class Systems {

  private static final StaffSettings.Joins SET = StaffSettings.STANDARD.joins();

  private Systems() {}

  /** Groups staves given from top to bottom. */
  static List<FoundSystem> group(PageImage page, Pixels pixels, List<Candidate> staves) {
    List<List<Candidate>> groups = new ArrayList<>();
    for (Candidate staff : staves) {
      List<Candidate> last = groups.isEmpty() ? List.of() : groups.get(groups.size() - 1);
      Staff before = last.isEmpty() ? staff.staff() : last.get(last.size() - 1).staff();
      boolean one =
          !last.isEmpty()
              && (joined(pixels, before, staff.staff()) || barred(pixels, before, staff.staff()));
      if (one) {
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

  /**
   * Tells whether barlines run through the room between two staves: two strokes at least, so that
   * no single long pencil line joins what is apart, and half of the upper staff's, since barlines
   * run through all together or not at all (common practice) while a gutter and an edge run alone.
   */
  private static boolean barred(Pixels pixels, Staff upper, Staff lower) {
    double s = upper.usualSpace();
    int through = 0;
    int all = 0;
    double last = Double.NEGATIVE_INFINITY;
    double right = Math.min(upper.right(), lower.right());
    for (double x = Math.max(upper.left(), lower.left()); x <= right; x++) {
      if (x - last < SET.apart() * s || !crosses(pixels, upper, x)) {
        continue;
      }
      double top = upper.middleAt(x) + SET.outer() * upper.spaceAt(x);
      double bottom = lower.middleAt(x) - SET.outer() * lower.spaceAt(x);
      boolean room = bottom - top > 2 * s && bottom - top < SET.barredRoom() * s;
      all++;
      through += room && isBarline(pixels, upper, lower, x) ? 1 : 0;
      last = x;
    }
    return through >= 2 && 2 * through >= all;
  }

  /** Tells whether a stroke crosses a staff from line to line. */
  private static boolean crosses(Pixels pixels, Staff staff, double x) {
    double middle = staff.middleAt(x);
    double half = SET.across() * staff.spaceAt(x);
    return isStroke(pixels, staff.lean(), x, middle - half, middle + half);
  }

  /** A barline ends at the outer lines; a gutter and the paper's edge run on. */
  private static boolean isBarline(Pixels pixels, Staff upper, Staff lower, double x) {
    double lean = upper.lean();
    double up = upper.spaceAt(x);
    double down = lower.spaceAt(x);
    double top = upper.middleAt(x) + SET.outer() * up;
    double bottom = lower.middleAt(x) - SET.outer() * down;
    double over = upper.middleAt(x) - SET.over() * up;
    double under = lower.middleAt(x) + SET.over() * down;
    return isStroke(pixels, lean, x, top, bottom)
        && !runsOn(pixels, lean, x + lean * (over - 2 * up - top), over - 2 * up, over)
        && !runsOn(pixels, lean, x + lean * (under - top), under, under + 2 * down);
  }

  /** A bent gutter leans another way than the barlines do. */
  private static boolean runsOn(Pixels pixels, double lean, double x, double top, double bottom) {
    double aside = SET.sideways() * (bottom - top);
    for (double d = -aside; d <= aside; d++) {
      if (isStroke(pixels, lean, x + d, top, bottom)) {
        return true;
      }
    }
    return false;
  }

  private static boolean isStroke(Pixels pixels, double lean, double x, double top, double bottom) {
    for (int k = 1; k < SET.probes(); k++) {
      if (!isDark(pixels, lean, x, top, top + (bottom - top) * k / SET.probes())) {
        return false;
      }
    }
    int dark = 0;
    int all = 0;
    for (double y = top; y <= bottom; y++, all++) {
      dark += isDark(pixels, lean, x, top, y) ? 1 : 0;
    }
    return dark >= SET.barDark() * all;
  }

  private static boolean isDark(Pixels pixels, double lean, double x, double top, double y) {
    return pixels.darkestBeside(x + lean * (y - top), y) < SET.ink();
  }

  /** Tells whether one dark stroke runs from the upper staff's left end to the lower one's. */
  private static boolean joined(Pixels pixels, Staff upper, Staff lower) {
    double s = upper.usualSpace();
    double xTop = upper.left();
    double xBottom = lower.left();
    double top = upper.middleAt(xTop) + 2 * upper.spaceAt(xTop);
    double bottom = lower.middleAt(xBottom) - 2 * lower.spaceAt(xBottom);
    if (Math.abs(xTop - xBottom) > SET.ends() * s
        || bottom < top
        || bottom - top > SET.joinedRoom() * s) {
      return false;
    }
    for (double d = -SET.strokeBefore() * s; d <= SET.strokeBehind() * s; d++) {
      int dark = 0;
      int all = 0;
      for (double y = top; y <= bottom; y++) {
        double x = xTop + d + (xBottom - xTop) * (y - top) / (bottom - top);
        int ink = Math.min(pixels.at(x, y), Math.min(pixels.at(x - 1, y), pixels.at(x + 1, y)));
        dark += ink < SET.ink() ? 1 : 0;
        all++;
      }
      if (dark >= SET.strokeDark() * all) {
        return hasPaperBefore(pixels, new double[] {xTop + d, top, xBottom + d, bottom}, s);
      }
    }
    return false;
  }

  /**
   * Left of a system's first line, brackets and brace apart, is paper; left of a page's edge is
   * what the book lies on.
   */
  private static boolean hasPaperBefore(Pixels pixels, double[] stroke, double space) {
    for (double d = SET.paperFrom() * space; d <= SET.margin() * space; d++) {
      int paper = 0;
      int all = 0;
      for (double y = stroke[1]; y <= stroke[3]; y++, all++) {
        double x =
            stroke[0] - d + (stroke[2] - stroke[0]) * (y - stroke[1]) / (stroke[3] - stroke[1]);
        paper += x >= 0 && pixels.at(x, y) >= SET.ink() ? 1 : 0;
      }
      if (paper > SET.paper() * all) {
        return true;
      }
    }
    return false;
  }
}
