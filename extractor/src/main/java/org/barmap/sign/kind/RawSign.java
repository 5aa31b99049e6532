package org.barmap.sign.kind;

import java.util.List;

/**
 * A sign in the pixels of its strip, before its text is read.
 *
 * @param kind what it is
 * @param x0 left side
 * @param y0 upper side
 * @param x1 right side
 * @param y1 lower side
 * @param probability 0 to 1
 * @param readings of a barline: its types; else empty
 * @param origin how it was found
 */
public record RawSign(
    SignKind kind,
    double x0,
    double y0,
    double x1,
    double y1,
    double probability,
    List<Reading> readings,
    Origin origin) {

  /** Returns the same box as another kind. */
  public RawSign as(SignKind other) {
    return other == kind ? this : new RawSign(other, x0, y0, x1, y1, probability, readings, origin);
  }

  /** Returns the same sign in another box. */
  public RawSign in(double left, double top, double right, double bottom) {
    return new RawSign(kind, left, top, right, bottom, probability, readings, origin);
  }

  /** Returns the same sign between other sides. */
  public RawSign along(double left, double right) {
    return in(left, y0, right, y1);
  }

  /** Returns the same box with another probability. */
  public RawSign likely(double other) {
    return new RawSign(kind, x0, y0, x1, y1, other, readings, origin);
  }

  /** Returns the middle along the strip, pixels. */
  public double centre() {
    return (x0 + x1) / 2;
  }

  /** Returns the width, pixels. */
  public double width() {
    return x1 - x0;
  }

  /** Returns the height, pixels. */
  public double height() {
    return y1 - y0;
  }

  private double common(RawSign o) {
    double w = Math.min(x1, o.x1) - Math.max(x0, o.x0);
    double h = Math.min(y1, o.y1) - Math.max(y0, o.y0);
    return w <= 0 || h <= 0 ? 0 : w * h;
  }

  /** Returns intersection over union. */
  public double overlap(RawSign o) {
    double common = common(o);
    return common / (width() * height() + o.width() * o.height() - common);
  }

  /** Returns how much of the smaller one lies in the other, 0 to 1. */
  public double inside(RawSign o) {
    return common(o) / Math.min(width() * height(), o.width() * o.height());
  }
}
