package org.barmap.page.level;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Point;
import org.barmap.page.pixel.Mats;
import org.barmap.page.pixel.PageSettings;
import org.barmap.page.pixel.Shrunk;
import org.barmap.page.pixel.WorkStep;
import org.opencv.core.Core;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import org.opencv.core.MatOfInt;
import org.opencv.core.MatOfPoint;
import org.opencv.core.Rect;
import org.opencv.core.Scalar;
import org.opencv.core.Size;
import org.opencv.imgproc.Imgproc;

/**
 * Where the paper lies in a photograph.
 *
 * @param corners its four corners, top left first, clockwise; pixels of the picture looked at
 * @param hull its outline, convex
 * @param whole whether all four corners are in the picture, so that its perspective can be trusted
 */
public record PageRegion(List<Point> corners, List<Point> hull, boolean whole) {

  private static final PageSettings.Sheet SET = PageSettings.STANDARD.sheet();

  private static final int GRAYS = 256;

  /** Natural logarithms in one of base two. */
  private static final double PER_OCTAVE = 1.4427;

  /** What OpenCV's flood fill takes for the neighbours at the sides. */
  private static final int FOUR_NEIGHBOURS = 4;

  /** Takes a defensive copy. */
  public PageRegion {
    corners = List.copyOf(corners);
    hull = List.copyOf(hull);
  }

  /** Returns the point between its corners. */
  public Point middle() {
    return corners.get(0).middle(corners.get(2)).middle(corners.get(1).middle(corners.get(3)));
  }

  /** Finds the paper; empty when the picture shows nothing else, or nothing like a page. */
  public static Optional<PageRegion> find(Mat gray) {
    double shrink = Math.min(1, SET.thumb() / Math.max(gray.cols(), gray.rows()));
    try (Mats scope = new Mats()) {
      Mat thumb = scope.mat();
      // Most of the way by whole squares, which is quick.
      Mat near =
          shrink > 0.5 ? gray : Shrunk.squares(gray, (int) (1 / shrink), WorkStep.OUTLINE, scope);
      Size size = new Size(Math.round(gray.cols() * shrink), Math.round(gray.rows() * shrink));
      Imgproc.resize(near, thumb, size, 0, 0, Imgproc.INTER_AREA);
      // Ink goes, paper stays.
      Mat kernel =
          scope.keep(
              Imgproc.getStructuringElement(Imgproc.MORPH_ELLIPSE, new Size(SET.ink(), SET.ink())));
      Imgproc.morphologyEx(thumb, thumb, Imgproc.MORPH_CLOSE, kernel);
      Imgproc.medianBlur(thumb, thumb, SET.smooth());
      Core.MinMaxLocResult range = Core.minMaxLoc(thumb);
      if (range.maxVal - range.minVal < SET.leastContrast()) {
        return Optional.empty();
      }
      Mat ratio = logarithm(thumb, scope);
      Optional<Found> best = Optional.empty();
      for (double level = range.minVal + SET.darkest();
          level < range.maxVal - SET.brightest();
          level += SET.between()) {
        Mat bright = scope.mat();
        Imgproc.threshold(thumb, bright, level, 255, Imgproc.THRESH_BINARY);
        best = better(best, patches(bright, ratio));
      }
      for (double step : SET.steps()) {
        best = better(best, flooded(ratio, step));
      }
      return best.filter(f -> f.fit > SET.fit()).map(f -> f.region(1 / shrink, thumb.size()));
    }
  }

  private static Optional<Found> better(Optional<Found> a, Optional<Found> b) {
    return a.isEmpty() || b.isPresent() && b.get().score > a.get().score ? b : a;
  }

  /** Returns brightness on a scale on which shadow is a shift: 20 levels halve or double it. */
  private static Mat logarithm(Mat thumb, Mats scope) {
    Mat table = scope.keep(new Mat(1, GRAYS, CvType.CV_8U));
    byte[] values = new byte[GRAYS];
    for (int i = 0; i < GRAYS; i++) {
      values[i] =
          (byte)
              Math.round(
                  SET.octave() * PER_OCTAVE * Math.log(Math.max(SET.darkestGray(), i))
                      + SET.lift());
    }
    table.put(0, 0, values);
    Mat out = scope.mat();
    Core.LUT(thumb, table, out);
    return out;
  }

  /** Lets paper spread from the middle over soft shadows, up to the first sharp edge. */
  private static Optional<Found> flooded(Mat ratio, double step) {
    try (Mats scope = new Mats()) {
      Mat mask = scope.keep(Mat.zeros(ratio.rows() + 2, ratio.cols() + 2, CvType.CV_8U));
      Mat copy = scope.mat();
      ratio.copyTo(copy);
      Optional<Found> best = Optional.empty();
      for (int i = 0; i < SET.seeds() * SET.seeds(); i++) {
        double x = ratio.cols() * (SET.firstSeed() + SET.nextSeed() * (i % SET.seeds()));
        double y = ratio.rows() * (SET.firstSeed() + SET.nextSeed() * (i / SET.seeds()));
        if (mask.get((int) y + 1, (int) x + 1)[0] != 0) {
          continue;
        }
        Imgproc.floodFill(
            copy,
            mask,
            new org.opencv.core.Point((int) x, (int) y),
            new Scalar(0),
            new Rect(),
            new Scalar(step),
            new Scalar(step),
            FOUR_NEIGHBOURS | Imgproc.FLOODFILL_MASK_ONLY | (i + 1) << 8);
        Mat one = scope.mat();
        Mat inner = scope.keep(mask.submat(1, ratio.rows() + 1, 1, ratio.cols() + 1));
        Core.compare(inner, new Scalar(i + 1), one, Core.CMP_EQ);
        best = better(best, patches(one, ratio));
      }
      return best;
    }
  }

  /** A bright patch with the quadrilateral that suits it best. */
  private record Found(List<Point> corners, List<Point> hull, double fit, double score) {

    PageRegion region(double scale, Size size) {
      boolean inside = true;
      for (Point c : corners) {
        double edge =
            Math.min(
                Math.min(c.x(), size.width - 1 - c.x()), Math.min(c.y(), size.height - 1 - c.y()));
        inside &= edge > SET.inside();
      }
      return new PageRegion(times(corners, scale), times(hull, scale), inside);
    }

    private static List<Point> times(List<Point> points, double scale) {
      return points.stream()
          .map(p -> new Point((p.x() + 0.5) * scale, (p.y() + 0.5) * scale))
          .toList();
    }
  }

  /** Looks at the patches of a mask as pages. */
  private static Optional<Found> patches(Mat mask, Mat ratio) {
    try (Mats scope = new Mats()) {
      List<MatOfPoint> outlines = new ArrayList<>();
      Imgproc.findContours(
          mask, outlines, scope.mat(), Imgproc.RETR_EXTERNAL, Imgproc.CHAIN_APPROX_SIMPLE);
      outlines.forEach(scope::keep);
      double all = (double) mask.total();
      Optional<Found> best = Optional.empty();
      for (MatOfPoint outline : outlines) {
        double area = Imgproc.contourArea(outline);
        if (area < SET.leastShare() * all || area > SET.mostShare() * all) {
          continue;
        }
        List<Point> hull = hull(outline, scope);
        List<Point> corners = Corners.of(hull);
        if (!Corners.isSheet(corners)) {
          continue;
        }
        double edge = PageEdge.weakestSide(ratio, corners);
        double round = Corners.area(hull);
        // Both the patch fills its hull, and the quadrilateral does.
        double fit = Math.min(area / round, Corners.area(corners) / round);
        if (edge >= SET.edge()) {
          best =
              better(
                  best, Optional.of(new Found(corners, hull, fit, fit + SET.edgeWeight() * edge)));
        }
      }
      return best;
    }
  }

  private static List<Point> hull(MatOfPoint outline, Mats scope) {
    MatOfInt indices = new MatOfInt();
    scope.keep(indices);
    Imgproc.convexHull(outline, indices);
    org.opencv.core.Point[] points = outline.toArray();
    List<Point> hull = new ArrayList<>();
    for (int i : indices.toArray()) {
      hull.add(new Point(points[i].x, points[i].y));
    }
    return hull;
  }
}
