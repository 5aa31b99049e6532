package org.barmap.staff;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Outline;
import org.barmap.map.Point;
import org.barmap.map.StaffSystem;
import org.barmap.page.PageImage;

/**
 * One line of music across the page: a staff, or several joined at the left.
 *
 * <p>Everything it returns is in pixels of the given file, except what {@link Staff} says.
 */
public final class FoundSystem {

  private static final double MIDLINE_STEP = 4;

  /** What the map keeps of a staff space. */
  private static final double HUNDREDTHS = 100;

  private final PageImage page;
  private final int index;
  private final List<Staff> staves;
  private final double confidence;

  FoundSystem(PageImage page, int index, List<Staff> staves, double confidence) {
    this.page = page;
    this.index = index;
    this.staves = List.copyOf(staves);
    this.confidence = confidence;
  }

  /** Returns 1 for the uppermost system of the page. */
  public int index() {
    return index;
  }

  /** Returns the staves from top to bottom, at least one. */
  public List<Staff> staves() {
    return staves;
  }

  /** Returns the same system with other ends of its staves. */
  public FoundSystem with(List<Staff> other) {
    return new FoundSystem(page, index, other, confidence);
  }

  /**
   * Returns how much speaks for the system, 0 to 1: the share of its length in which its weakest
   * staff line is seen where it could be.
   */
  public double confidence() {
    return confidence;
  }

  /** Returns the length of the first staff in staff spaces. */
  public double length() {
    return first().length();
  }

  /** Returns outermost line to outermost line, left end to right end. */
  public Outline outline() {
    return outlineBetween(0, length());
  }

  /**
   * Returns the part between two positions along the first staff, in staff spaces from its left
   * end, from the top line of the first staff to the bottom line of the last.
   */
  public Outline outlineBetween(double from, double to) {
    double top = -first().half();
    return new Outline(
        file(first().at(from, top)), file(first().at(to, top)), bottom(to), bottom(from));
  }

  /**
   * Returns the position along the first staff straight over one along another staff; staves are
   * measured in their own staff spaces.
   *
   * @param staff its index in {@link #staves()}
   */
  public double alongFirst(int staff, double along) {
    if (staff == 0) {
      return along;
    }
    Point p = staves.get(staff).at(along, 0);
    return first().alongAt(p.x() + first().lean() * (first().middleAt(p.x()) - p.y()));
  }

  private Point bottom(double along) {
    Staff last = staves.get(staves.size() - 1);
    if (staves.size() == 1) {
      return file(last.at(along, last.half()));
    }
    // The place of the last staff straight below that of the first.
    Point top = first().at(along, 0);
    double x = top.x() + first().lean() * (last.middleAt(top.x()) - top.y());
    return file(last.at(last.alongAt(x), last.half()));
  }

  /** Returns the distance of neighbouring lines of the first staff. */
  public double staffSpace() {
    double middle = length() / 2;
    return file(first().at(middle, -2)).distance(file(first().at(middle, 2))) / Staff.ROOMS;
  }

  /** Returns points along the middle line of the first staff, from left end to right end. */
  public List<Point> midline() {
    List<Point> points = new ArrayList<>();
    int parts = Math.max(2, (int) Math.ceil(length() / MIDLINE_STEP));
    for (int i = 0; i <= parts; i++) {
      points.add(file(first().at(length() * i / parts, 0)).rounded());
    }
    return points;
  }

  /** Returns the system as the bar map carries it, without a printed bar number. */
  public StaffSystem toStaffSystem() {
    return new StaffSystem(
        index,
        outline().rounded(),
        Math.round(staffSpace() * HUNDREDTHS) / HUNDREDTHS,
        Optional.empty(),
        confidence,
        midline());
  }

  private Staff first() {
    return staves.get(0);
  }

  private Point file(Point work) {
    return page.toFile(work.x(), work.y());
  }
}
