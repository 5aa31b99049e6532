package org.barmap.score;

/** Positions along a staff, measured on the middle line of its outline; pixels. */
final class Axis {
  private final double[] origin;
  private final double ux;
  private final double uy;

  Axis(double[][] outline) {
    double[] a = Polygons.middle(outline[0], outline[3]);
    double[] b = Polygons.middle(outline[1], outline[2]);
    double length = Polygons.distance(a, b);
    length = length == 0 ? 1 : length;
    origin = a;
    ux = (b[0] - a[0]) / length;
    uy = (b[1] - a[1]) / length;
  }

  double at(double[] p) {
    return (p[0] - origin[0]) * ux + (p[1] - origin[1]) * uy;
  }

  /** Returns the point of the line from p to q at a position. */
  double[] point(double[] p, double[] q, double position) {
    double va = at(p);
    double span = at(q) - va;
    double w = (position - va) / (span == 0 ? 1 : span);
    return new double[] {p[0] + w * (q[0] - p[0]), p[1] + w * (q[1] - p[1])};
  }
}
