package org.barmap.page.pixel;

import org.barmap.map.Point;
import org.opencv.core.CvType;
import org.opencv.core.Mat;

/**
 * A plane projective map; takes continuous coordinates of one image to those of another.
 *
 * @param a the nine entries of its matrix, row by row
 */
public record Homography(double[] a) {

  /** Returns the map that moves nothing. */
  public static Homography identity() {
    return new Homography(new double[] {1, 0, 0, 0, 1, 0, 0, 0, 1});
  }

  /** Returns the map that stretches by these factors. */
  public static Homography scale(double sx, double sy) {
    return new Homography(new double[] {sx, 0, 0, 0, sy, 0, 0, 0, 1});
  }

  /** Returns the map that moves by this much. */
  public static Homography shift(double dx, double dy) {
    return new Homography(new double[] {1, 0, dx, 0, 1, dy, 0, 0, 1});
  }

  /** Returns a turn about the origin; radians, positive turns x towards y. */
  public static Homography turn(double angle) {
    double c = Math.cos(angle);
    double s = Math.sin(angle);
    return new Homography(new double[] {c, -s, 0, s, c, 0, 0, 0, 1});
  }

  /** Returns the map that does this one first and then the other. */
  public Homography then(Homography next) {
    double[] r = new double[9];
    for (int i = 0; i < 3; i++) {
      for (int j = 0; j < 3; j++) {
        for (int k = 0; k < 3; k++) {
          r[3 * i + j] += next.a[3 * i + k] * a[3 * k + j];
        }
      }
    }
    return new Homography(r);
  }

  /** Returns the map that takes four corners, clockwise from the upper left, to a box. */
  public static Homography quadToBox(java.util.List<Point> corners, double width, double height) {
    // From the unit square to the corners in closed form (P. Heckbert, 1989), turned round.
    Point p0 = corners.get(0);
    Point p1 = corners.get(1);
    Point p2 = corners.get(2);
    Point p3 = corners.get(3);
    double dx1 = p1.x() - p2.x();
    double dy1 = p1.y() - p2.y();
    double dx2 = p3.x() - p2.x();
    double dy2 = p3.y() - p2.y();
    double sx = p0.x() - p1.x() + p2.x() - p3.x();
    double sy = p0.y() - p1.y() + p2.y() - p3.y();
    double det = dx1 * dy2 - dx2 * dy1;
    double g = (sx * dy2 - dx2 * sy) / det;
    double h = (dx1 * sy - sx * dy1) / det;
    Homography square =
        new Homography(
            new double[] {
              p1.x() - p0.x() + g * p1.x(),
              p3.x() - p0.x() + h * p3.x(),
              p0.x(),
              p1.y() - p0.y() + g * p1.y(),
              p3.y() - p0.y() + h * p3.y(),
              p0.y(),
              g,
              h,
              1
            });
    return square.inverse().then(scale(width, height));
  }

  /** Returns where a point goes. */
  public Point apply(double x, double y) {
    double w = a[6] * x + a[7] * y + a[8];
    return new Point((a[0] * x + a[1] * y + a[2]) / w, (a[3] * x + a[4] * y + a[5]) / w);
  }

  /** Returns the way back. */
  public Homography inverse() {
    double[] m = a;
    double[] r = {
      m[4] * m[8] - m[5] * m[7], m[2] * m[7] - m[1] * m[8], m[1] * m[5] - m[2] * m[4],
      m[5] * m[6] - m[3] * m[8], m[0] * m[8] - m[2] * m[6], m[2] * m[3] - m[0] * m[5],
      m[3] * m[7] - m[4] * m[6], m[1] * m[6] - m[0] * m[7], m[0] * m[4] - m[1] * m[3]
    };
    double det = m[0] * r[0] + m[1] * r[3] + m[2] * r[6];
    for (int i = 0; i < 9; i++) {
      r[i] /= det;
    }
    return new Homography(r);
  }

  /** Tells whether nothing moves by more than a thousandth. */
  public boolean isIdentity() {
    double[] one = identity().a;
    for (int i = 0; i < 9; i++) {
      if (Math.abs(a[i] - one[i]) > 1e-9) {
        return false;
      }
    }
    return true;
  }

  /** Returns the matrix for OpenCV, which counts from pixel centres; the caller frees it. */
  public Mat forPixelCentres() {
    Homography h = shift(0.5, 0.5).then(this).then(shift(-0.5, -0.5));
    Mat m = new Mat(3, 3, CvType.CV_64F);
    m.put(0, 0, h.a);
    return m;
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof Homography h && java.util.Arrays.equals(a, h.a);
  }

  @Override
  public int hashCode() {
    return java.util.Arrays.hashCode(a);
  }
}
