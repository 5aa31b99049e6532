package org.barmap.staff;

import java.util.Optional;
import org.barmap.map.Point;

/**
 * One staff as a curve on the working image of its page.
 *
 * <p>Positions along are in staff spaces from the left end, positions across in staff spaces from
 * the middle line, negative above. Working pixels throughout.
 */
public final class Staff {

  /** Working pixels between two stored points of the curve. */
  static final double STEP = 4;

  /** Lines of a staff. */
  static final int LINES = 5;

  /** From the middle line to the outer ones. */
  private static final double HALF = 2;

  /** Rooms between them. */
  static final int ROOMS = LINES - 1;

  /** Number of the place of a sixth line, the middle one being 0; halved, of the outermost room. */
  static final int SIXTH = 3;

  private final double left;
  private final double right;
  private final double[] middle;
  private final double[] space;
  private final double[] along;
  private final double lean;
  private final Optional<FewLines> few;

  /**
   * Takes the curve sampled every {@link #STEP} pixels from {@code left} on, the last point at or
   * beyond {@code right}.
   *
   * @param lean how far verticals lean at this staff, x per y
   */
  Staff(double left, double right, double[] middle, double[] space, double lean) {
    this(left, right, middle, space, lean, Optional.empty());
  }

  private Staff(
      double left,
      double right,
      double[] middle,
      double[] space,
      double lean,
      Optional<FewLines> few) {
    this.few = few;
    this.left = left;
    this.right = right;
    this.middle = middle.clone();
    this.space = space.clone();
    this.lean = lean;
    this.along = new double[middle.length];
    for (int i = 1; i < along.length; i++) {
      double s = (space[i - 1] + space[i]) / 2;
      along[i] = along[i - 1] + Math.hypot(STEP, middle[i] - middle[i - 1]) / s;
    }
  }

  /** Returns the same curve as that of a staff of one line or two. */
  Staff with(FewLines lines) {
    return new Staff(left, right, middle, space, lean, Optional.of(lines));
  }

  /** Tells whether the staff has one line or two, not five. */
  public boolean hasFewLines() {
    return few.isPresent();
  }

  /** Returns what a staff of one line or two is; empty for five. */
  Optional<FewLines> few() {
    return few;
  }

  /** Returns how far its bars reach above and below the middle line, staff spaces. */
  double half() {
    return LoneStaves.half(this).orElse(HALF);
  }

  /** Returns the left end, working pixels. */
  public double left() {
    return left;
  }

  /** Returns the right end, working pixels. */
  public double right() {
    return right;
  }

  /** Returns how far verticals lean at this staff: pixels to the right per pixel down. */
  public double lean() {
    return lean;
  }

  /** Returns the length from end to end in staff spaces. */
  public double length() {
    return alongAt(right);
  }

  /** Returns the height of the middle line at {@code x}, straight beyond the ends. */
  public double middleAt(double x) {
    return value(middle, (x - left) / STEP);
  }

  /** Returns the height of the middle line half way along, working pixels. */
  double height() {
    return middleAt((left + right) / 2);
  }

  /** Returns the staff space at {@code x} in working pixels, constant beyond the ends. */
  public double spaceAt(double x) {
    double i = Math.max(0, Math.min(space.length - 1, (x - left) / STEP));
    return value(space, i);
  }

  /** Returns the usual staff space in working pixels. */
  public double usualSpace() {
    double sum = 0;
    for (double s : space) {
      sum += s;
    }
    return sum / space.length;
  }

  /** Returns how far along the staff {@code x} is, staff spaces from the left end. */
  public double alongAt(double x) {
    return value(along, (x - left) / STEP);
  }

  /** Returns the x of a position along the staff; beyond the ends it goes straight on. */
  public double xAt(double spaces) {
    int low = 0;
    int high = along.length - 1;
    while (high - low > 1) {
      int mid = (low + high) >>> 1;
      if (along[mid] <= spaces) {
        low = mid;
      } else {
        high = mid;
      }
    }
    return left + STEP * (low + (spaces - along[low]) / (along[low + 1] - along[low]));
  }

  /** Returns the working-image point at a position along and across. */
  public Point at(double alongSpaces, double acrossSpaces) {
    double x = xAt(alongSpaces);
    double down = acrossSpaces * spaceAt(x);
    return new Point(x + lean * down, middleAt(x) + down);
  }

  /** Returns the part from a position along on; positions along it count from there. */
  public Staff from(double spaces) {
    double start = xAt(spaces);
    int points = Math.max(2, (int) Math.ceil((right - start) / STEP) + 1);
    double[] ownMiddle = new double[points];
    double[] ownSpace = new double[points];
    for (int i = 0; i < points; i++) {
      ownMiddle[i] = middleAt(start + i * STEP);
      ownSpace[i] = spaceAt(start + i * STEP);
    }
    return new Staff(start, right, ownMiddle, ownSpace, lean, few.map(s -> s.from(spaces)));
  }

  private static double value(double[] v, double i) {
    int low = (int) Math.floor(Math.max(0, Math.min(v.length - 2, i)));
    return v[low] + (v[low + 1] - v[low]) * (i - low);
  }
}
