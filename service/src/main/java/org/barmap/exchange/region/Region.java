package org.barmap.exchange.region;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.barmap.map.Outline;
import org.barmap.map.Point;
import org.barmap.map.StaffSystem;

/**
 * Where something lies on a page image: the box around it in whole pixels, and its own shape.
 *
 * @param x left edge of the box
 * @param y upper edge of the box
 * @param width of the box, at least 1
 * @param height of the box, at least 1
 * @param shape its corners, clockwise from the top left; follows a bent staff
 */
public record Region(int x, int y, int width, int height, List<Point> shape) {

  /** Takes a defensive copy. */
  public Region {
    shape = List.copyOf(shape);
  }

  /**
   * Returns the region of a bar.
   *
   * @param bar its outline
   * @param system the line it stands on; its midline, where it has one, says how the staff is bent
   * @param pageWidth of the image; the box ends there
   * @param pageHeight of the image
   */
  public static Region of(Outline bar, StaffSystem system, int pageWidth, int pageHeight) {
    return around(bent(bar, system.midline()), pageWidth, pageHeight);
  }

  /** Returns the region of an outline with straight sides. */
  public static Region of(Outline outline, int pageWidth, int pageHeight) {
    return around(bent(outline, List.of()), pageWidth, pageHeight);
  }

  private static Region around(List<Point> shape, int pageWidth, int pageHeight) {
    double left = shape.stream().mapToDouble(Point::x).min().orElse(0);
    double right = shape.stream().mapToDouble(Point::x).max().orElse(0);
    double top = shape.stream().mapToDouble(Point::y).min().orElse(0);
    double bottom = shape.stream().mapToDouble(Point::y).max().orElse(0);
    int x = within((int) Math.floor(left), pageWidth - 1);
    int y = within((int) Math.floor(top), pageHeight - 1);
    int width = Math.max(1, within((int) Math.ceil(right), pageWidth) - x);
    int height = Math.max(1, within((int) Math.ceil(bottom), pageHeight) - y);
    return new Region(x, y, width, height, shape);
  }

  private static int within(int value, int most) {
    return Math.max(0, Math.min(value, most));
  }

  /** Upper and lower edge follow the middle line as far as it leaves the straight one. */
  private static List<Point> bent(Outline o, List<Point> midline) {
    Point from = o.leftMiddle();
    Point to = o.rightMiddle();
    List<Point> top = new ArrayList<>();
    List<Point> bottom = new ArrayList<>();
    top.add(o.topLeft());
    bottom.add(o.bottomLeft());
    for (Point p : midline) {
      if (p.x() <= from.x() || p.x() >= to.x()) {
        continue;
      }
      double share = (p.x() - from.x()) / (to.x() - from.x());
      double off = p.y() - straight(midlineAt(midline, from), midlineAt(midline, to), share);
      top.add(moved(o.topLeft(), o.topRight(), share, off));
      bottom.add(moved(o.bottomLeft(), o.bottomRight(), share, off));
    }
    top.add(o.topRight());
    bottom.add(o.bottomRight());
    List<Point> shape = new ArrayList<>(top);
    for (int i = bottom.size() - 1; i >= 0; i--) {
      shape.add(bottom.get(i));
    }
    return shape.stream().map(Point::rounded).toList();
  }

  /** The height of the midline over or under a point, between its own two points there. */
  private static double midlineAt(List<Point> midline, Point at) {
    Point before = midline.get(0);
    for (Point p : midline) {
      if (p.x() >= at.x()) {
        double span = p.x() - before.x();
        return span <= 0 ? p.y() : straight(before.y(), p.y(), (at.x() - before.x()) / span);
      }
      before = p;
    }
    return before.y();
  }

  private static Point moved(Point a, Point b, double share, double down) {
    return new Point(straight(a.x(), b.x(), share), straight(a.y(), b.y(), share) + down);
  }

  private static double straight(double a, double b, double share) {
    return a + (b - a) * share;
  }

  /** Tells whether the box says all: every side of the shape is level or upright. */
  public boolean isBox() {
    return shape.stream()
        .allMatch(
            p ->
                (near(p.x(), x) || near(p.x(), x + width))
                    && (near(p.y(), y) || near(p.y(), y + height)));
  }

  private static boolean near(double a, double b) {
    return Math.abs(a - b) < 1;
  }

  /** Returns the box as a media fragment has it (W3C Media Fragments 1.0, 4.2.2). */
  public String fragment() {
    return "xywh=" + x + "," + y + "," + width + "," + height;
  }

  /** Returns the shape as an SVG document of one polygon, in pixels of the image. */
  public String svg() {
    String points =
        shape.stream().map(p -> plain(p.x()) + "," + plain(p.y())).collect(Collectors.joining(" "));
    return "<svg xmlns=\"http://www.w3.org/2000/svg\"><polygon points=\"" + points + "\"/></svg>";
  }

  private static String plain(double value) {
    String text = String.format(Locale.ROOT, "%.1f", value);
    return text.endsWith(".0") ? text.substring(0, text.length() - 2) : text;
  }
}
