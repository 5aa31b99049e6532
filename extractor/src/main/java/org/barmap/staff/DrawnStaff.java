package org.barmap.staff;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import org.barmap.map.Outline;
import org.barmap.map.Point;
import org.barmap.page.PageImage;

/** The staff a person drew a frame over because it was not found, or was taken for none. */
public final class DrawnStaff {

  private static final StaffSettings.Drawn SET = StaffSettings.STANDARD.drawn();

  private DrawnStaff() {}

  /**
   * Returns the system inside a frame: the best of what looks like a staff there, with those joined
   * to it; where nothing does, straight lines from side to side of the frame.
   *
   * @param frame from the top line at the left to the bottom line at the right, as far as a hand
   *     does that; pixels of the given file
   */
  static FoundSystem in(PageImage page, Outline frame) {
    Pixels pixels = Pixels.of(page.gray());
    Staff drawn = straight(page, frame);
    List<Candidate> inside =
        StaffFinder.candidates(page, pixels).stream().filter(c -> isInside(c, drawn)).toList();
    List<Candidate> good = Candidate.good(inside);
    List<Candidate> staves =
        good.isEmpty()
            ? inside.stream()
                .filter(c -> c.mean() >= SET.leastMean())
                .max(Comparator.comparingDouble(Candidate::mean))
                .stream()
                .toList()
            : good.stream().sorted(Comparator.comparingDouble(c -> c.staff().height())).toList();
    double middle = drawn.height();
    return Systems.group(page, pixels, staves).stream()
        .min(Comparator.comparingDouble(s -> Math.abs(height(s) - middle)))
        .orElseGet(() -> new FoundSystem(page, 1, List.of(drawn), 0));
  }

  /**
   * Returns the systems of a page with the one inside a frame among them, from top to bottom; what
   * was found at its place goes.
   */
  public static List<FoundSystem> among(PageImage page, List<FoundSystem> found, Outline frame) {
    FoundSystem drawn = in(page, frame);
    double reach = 2 * drawn.staves().get(0).usualSpace();
    List<FoundSystem> all = new ArrayList<>(found);
    all.removeIf(s -> Math.abs(height(s) - height(drawn)) < reach && isAlong(s, drawn));
    all.add(drawn);
    all.sort(Comparator.comparingDouble(DrawnStaff::height));
    List<FoundSystem> numbered = new ArrayList<>();
    for (FoundSystem s : all) {
      numbered.add(new FoundSystem(page, numbered.size() + 1, s.staves(), s.confidence()));
    }
    return numbered;
  }

  /** Two lines may stand side by side. */
  private static boolean isAlong(FoundSystem a, FoundSystem b) {
    Staff one = a.staves().get(0);
    Staff other = b.staves().get(0);
    return Math.min(one.right(), other.right()) > Math.max(one.left(), other.left());
  }

  private static double height(FoundSystem system) {
    return system.staves().stream().mapToDouble(Staff::height).average().orElse(0);
  }

  /** Its middle lies in the frame, and both lie along each other. */
  private static boolean isInside(Candidate candidate, Staff drawn) {
    Staff staff = candidate.staff();
    double common = Math.min(staff.right(), drawn.right()) - Math.max(staff.left(), drawn.left());
    double shorter = Math.min(staff.right() - staff.left(), drawn.right() - drawn.left());
    double x = Math.max(staff.left(), drawn.left()) + common / 2;
    return common > SET.along() * shorter
        && Math.abs(staff.middleAt(x) - drawn.middleAt(x)) < 2 * drawn.spaceAt(x);
  }

  private static Staff straight(PageImage page, Outline frame) {
    Point left = work(page, frame.leftMiddle());
    Point right = work(page, frame.rightMiddle());
    double high =
        work(page, frame.topLeft()).distance(work(page, frame.bottomLeft())) / Staff.ROOMS;
    int points = (int) Math.ceil((right.x() - left.x()) / Staff.STEP) + 1;
    double[] middle = new double[points];
    double[] space = new double[points];
    Arrays.fill(space, high);
    for (int i = 0; i < points; i++) {
      double share = i * Staff.STEP / Math.max(Staff.STEP, right.x() - left.x());
      middle[i] = left.y() + (right.y() - left.y()) * share;
    }
    return new Staff(left.x(), right.x(), middle, space, 0);
  }

  private static Point work(PageImage page, Point file) {
    return page.toWork(file.x(), file.y());
  }
}
