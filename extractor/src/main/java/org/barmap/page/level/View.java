package org.barmap.page.level;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import org.barmap.map.Point;
import org.barmap.page.pixel.Frame;
import org.barmap.page.pixel.Homography;
import org.barmap.page.pixel.Mats;
import org.barmap.page.pixel.PageSettings;
import org.barmap.page.pixel.Warp;
import org.barmap.page.pixel.WorkStep;
import org.opencv.core.Core;
import org.opencv.core.Mat;
import org.opencv.core.MatOfPoint;
import org.opencv.core.Scalar;
import org.opencv.imgproc.Imgproc;

/**
 * A way to look at a picture: a warp and the part of the plane to show.
 *
 * @param picture the picture looked at; not owned
 * @param map from the picture to the view
 * @param width of the view, pixels
 * @param height of the view, pixels
 * @param hull outline of the paper in the picture; empty when all of it is paper
 */
public record View(Mat picture, Homography map, double width, double height, List<Point> hull) {

  private static final PageSettings.View SET = PageSettings.STANDARD.view();

  /** Takes a defensive copy. */
  public View {
    hull = List.copyOf(hull);
  }

  /** Looks at the paper alone, straightened when all its corners are seen. */
  public static View of(Mat picture, Optional<PageRegion> region) {
    if (region.isEmpty()) {
      return new View(picture, Homography.identity(), picture.cols(), picture.rows(), List.of());
    }
    PageRegion r = region.get();
    if (!r.whole()) {
      return new View(picture, Homography.identity(), picture.cols(), picture.rows(), r.hull());
    }
    List<Point> c = r.corners();
    double w = Math.max(c.get(0).distance(c.get(1)), c.get(3).distance(c.get(2)));
    double h = Math.max(c.get(0).distance(c.get(3)), c.get(1).distance(c.get(2)));
    double dx = SET.margin() * w;
    double dy = SET.margin() * h;
    Homography map = Homography.quadToBox(c, w, h).then(Homography.shift(dx, dy));
    return new View(picture, map, w + 2 * dx, h + 2 * dy, r.hull());
  }

  /** Tells whether the view is the picture itself, all of it. */
  public boolean isWhole() {
    return map.isIdentity() && width >= picture.cols() && height >= picture.rows();
  }

  /** Returns the view a quarter turn clockwise. */
  public View quarter() {
    Homography turn = new Homography(new double[] {0, -1, height, 1, 0, 0, 0, 0, 1});
    return new View(picture, map.then(turn), height, width, hull);
  }

  /** Returns the view turned by a small angle, radians. */
  public View turned(double angle) {
    Frame frame = Frame.of(Homography.turn(angle), width, height);
    return new View(picture, map.then(frame.map()), frame.width(), frame.height(), hull);
  }

  /**
   * Returns the part between two gutters; what lies beyond them is no paper of it.
   *
   * @param trim lost beside a gutter, pixels
   */
  View between(Optional<Gutter> before, Optional<Gutter> after, double trim) {
    List<Point> outline = outline();
    double from = 0;
    double to = width;
    if (before.isPresent()) {
      Gutter g = before.get();
      outline = clip(outline, p -> p.x() - g.at(p.y()) - trim);
      from = Math.max(0, Math.min(g.at(0), g.at(height)));
    }
    if (after.isPresent()) {
      Gutter g = after.get();
      outline = clip(outline, p -> g.at(p.y()) - trim - p.x());
      to = Math.min(width, Math.max(g.at(0), g.at(height)));
    }
    Homography back = map.inverse();
    List<Point> paper = outline.stream().map(p -> back.apply(p.x(), p.y())).toList();
    return new View(picture, map.then(Homography.shift(-from, 0)), to - from, height, paper);
  }

  /** Tells whether a point of the picture lies on the paper of the view. */
  boolean shows(Point point) {
    Point here = map.apply(point.x(), point.y());
    double[] row = span(here.y());
    return here.x() >= row[0] && here.x() <= row[1];
  }

  /** Returns from where to where a row of the view shows paper; pixels. */
  double[] span(double y) {
    List<Point> outline = outline();
    double left = Double.MAX_VALUE;
    double right = -Double.MAX_VALUE;
    for (int i = 0; i < outline.size(); i++) {
      Point a = outline.get(i);
      Point b = outline.get((i + 1) % outline.size());
      if (a.y() <= y != b.y() <= y) {
        double x = a.x() + (b.x() - a.x()) * (y - a.y()) / (b.y() - a.y());
        left = Math.min(left, x);
        right = Math.max(right, x);
      }
    }
    return new double[] {Math.max(0, left), Math.min(width, right)};
  }

  /** Returns the outline of the paper in the view: all of the picture where no other is known. */
  private List<Point> outline() {
    double w = picture.cols();
    double h = picture.rows();
    List<Point> paper =
        hull.isEmpty()
            ? List.of(new Point(0, 0), new Point(w, 0), new Point(w, h), new Point(0, h))
            : hull;
    return paper.stream().map(p -> map.apply(p.x(), p.y())).toList();
  }

  /** Cuts a convex outline along a straight line (Sutherland and Hodgman). */
  private static List<Point> clip(List<Point> outline, ToDoubleFunction<Point> inside) {
    List<Point> cut = new ArrayList<>();
    for (int i = 0; i < outline.size(); i++) {
      Point a = outline.get(i);
      Point b = outline.get((i + 1) % outline.size());
      double da = inside.applyAsDouble(a);
      double db = inside.applyAsDouble(b);
      if (da >= 0) {
        cut.add(a);
      }
      if (da >= 0 != db >= 0) {
        double t = da / (da - db);
        cut.add(new Point(a.x() + t * (b.x() - a.x()), a.y() + t * (b.y() - a.y())));
      }
    }
    return cut;
  }

  /**
   * Measures the level lines; where none are seen, without the upper and lower edge: the bent edge
   * of a dark opening outweighs thin staff lines.
   */
  public LineField lines() {
    try (Mats scope = new Mats()) {
      Mat whole = render(scope);
      LineField lines = LineField.measure(whole);
      int edge = (int) (SET.edge() * whole.rows());
      return lines.space() > 0 || whole.rows() < SET.leastRows()
          ? lines
          : LineField.measure(scope.keep(whole.rowRange(edge, whole.rows() - edge)));
    }
  }

  /** Returns the lines, without a distance at which nowhere five of them stand together. */
  public LineField checked(LineField lines) {
    return lines.space() > 0 && !showsStaves(lines) ? lines.withoutSpace() : lines;
  }

  /** Tells whether lines are regular enough for staves, or five of them stand together. */
  public boolean showsStaves(LineField lines) {
    if (lines.strength() >= LineField.SET.regular() || lines.space() <= 0) {
      return lines.space() > 0;
    }
    try (Mats scope = new Mats()) {
      StaffRows staves = StaffRows.of(render(scope), lines.space());
      return staves.seen(LineField.SET.lasting()) >= LineField.SET.together();
    }
  }

  /**
   * Returns the pages that the view shows.
   *
   * @param space staff space in its pixels
   */
  public Opening opening(double space) {
    try (Mats scope = new Mats()) {
      return Opening.of(this, render(scope), space);
    }
  }

  /** Draws the view; what is not paper is white. */
  private Mat render(Mats scope) {
    if (isWhole() && hull.isEmpty()) {
      return picture;
    }
    Mat out =
        Warp.draw(
            picture,
            map,
            (int) Math.ceil(width),
            (int) Math.ceil(height),
            Core.BORDER_REPLICATE,
            WorkStep.LEVEL,
            scope);
    if (!hull.isEmpty()) {
      List<Point> here = new ArrayList<>();
      for (Point p : hull) {
        here.add(map.apply(p.x(), p.y()));
      }
      fillOutside(out, here, Core.mean(out).val[0]);
    }
    return out;
  }

  /** Paints everything outside a convex outline with one gray. */
  static void fillOutside(Mat image, List<Point> outline, double gray) {
    try (Mats scope = new Mats()) {
      Mat mask = scope.keep(new Mat(image.size(), image.type(), new Scalar(255)));
      MatOfPoint polygon =
          new MatOfPoint(
              outline.stream()
                  .map(p -> new org.opencv.core.Point(p.x(), p.y()))
                  .toArray(org.opencv.core.Point[]::new));
      scope.keep(polygon);
      Imgproc.fillConvexPoly(mask, polygon, new Scalar(0));
      image.setTo(new Scalar(gray), mask);
    }
  }
}
