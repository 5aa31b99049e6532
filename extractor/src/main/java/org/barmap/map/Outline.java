package org.barmap.map;

import com.fasterxml.jackson.annotation.JsonFormat;
import com.fasterxml.jackson.annotation.JsonIgnore;
import com.fasterxml.jackson.annotation.JsonPropertyOrder;

/**
 * Four corners of a region on a page, in pixels; its sides need not be axis-parallel.
 *
 * <p>Written as {@code [[x,y],[x,y],[x,y],[x,y]]} in the order of the components.
 */
@JsonFormat(shape = JsonFormat.Shape.ARRAY)
@JsonPropertyOrder({"topLeft", "topRight", "bottomRight", "bottomLeft"})
public record Outline(Point topLeft, Point topRight, Point bottomRight, Point bottomLeft) {

  /** Returns an axis-parallel outline; pixels. */
  public static Outline box(double left, double top, double right, double bottom) {
    return new Outline(
        new Point(left, top),
        new Point(right, top),
        new Point(right, bottom),
        new Point(left, bottom));
  }

  /** Returns the outline with every corner rounded to a tenth of a pixel. */
  public Outline rounded() {
    return new Outline(
        topLeft.rounded(), topRight.rounded(), bottomRight.rounded(), bottomLeft.rounded());
  }

  /** Returns the middle of the left side. */
  @JsonIgnore
  public Point leftMiddle() {
    return topLeft.middle(bottomLeft);
  }

  /** Returns the middle of the right side. */
  @JsonIgnore
  public Point rightMiddle() {
    return topRight.middle(bottomRight);
  }

  /** Returns the part between two shares of the width, 0 (left side) to 1 (right side). */
  public Outline slice(double fromShare, double toShare) {
    return new Outline(
        along(topLeft, topRight, fromShare),
        along(topLeft, topRight, toShare),
        along(bottomLeft, bottomRight, toShare),
        along(bottomLeft, bottomRight, fromShare));
  }

  private static Point along(Point a, Point b, double share) {
    return new Point(a.x() + (b.x() - a.x()) * share, a.y() + (b.y() - a.y()) * share);
  }
}
