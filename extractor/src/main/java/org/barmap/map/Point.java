package org.barmap.map;

import com.fasterxml.jackson.annotation.JsonFormat;
import com.fasterxml.jackson.annotation.JsonPropertyOrder;

/** A point on a page, in pixels of the given page image; written as {@code [x, y]}. */
@JsonFormat(shape = JsonFormat.Shape.ARRAY)
@JsonPropertyOrder({"x", "y"})
public record Point(double x, double y) {

  /** Rounds both coordinates to a tenth of a pixel, the precision the format is written with. */
  public Point rounded() {
    return new Point(Math.round(x * 10) / 10.0, Math.round(y * 10) / 10.0);
  }

  /** Returns the point half way to another. */
  public Point middle(Point other) {
    return new Point((x + other.x) / 2, (y + other.y) / 2);
  }

  /** Returns the distance to another point in pixels. */
  public double distance(Point other) {
    return Math.hypot(x - other.x, y - other.y);
  }
}
