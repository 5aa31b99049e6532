package org.barmap.score;

/** Areas and overlaps of convex polygons; a polygon is an array of (x, y) corners. */
final class Polygons {

  private Polygons() {}

  static double area(double[][] p) {
    return p.length > 2 ? Math.abs(signed(p)) / 2 : 0;
  }

  private static double signed(double[][] p) {
    double sum = 0;
    for (int i = 0; i < p.length; i++) {
      double[] a = p[i];
      double[] b = p[(i + 1) % p.length];
      sum += a[0] * b[1] - b[0] * a[1];
    }
    return sum;
  }

  private static double[][] oriented(double[][] p) {
    if (signed(p) > 0) {
      return p;
    }
    double[][] turned = new double[p.length][];
    for (int i = 0; i < p.length; i++) {
      turned[i] = p[p.length - 1 - i];
    }
    return turned;
  }

  /** Returns the intersection of two convex polygons (Sutherland and Hodgman 1974). */
  static double[][] clip(double[][] subject, double[][] window) {
    double[][] out = oriented(subject);
    double[][] edges = oriented(window);
    for (int i = 0; i < edges.length && out.length > 0; i++) {
      out = clip(out, edges[i], edges[(i + 1) % edges.length]);
    }
    return out;
  }

  private static double[][] clip(double[][] in, double[] p, double[] q) {
    var out = new java.util.ArrayList<double[]>();
    for (int j = 0; j < in.length; j++) {
      double[] r = in[j];
      double[] s = in[(j + 1) % in.length];
      double dr = side(p, q, r);
      double ds = side(p, q, s);
      if (dr >= 0) {
        out.add(r);
      }
      if ((dr >= 0) != (ds >= 0)) {
        double t = dr / (dr - ds);
        out.add(new double[] {r[0] + t * (s[0] - r[0]), r[1] + t * (s[1] - r[1])});
      }
    }
    return out.toArray(new double[0][]);
  }

  private static double side(double[] p, double[] q, double[] r) {
    return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]);
  }

  /** Returns intersection over union, 0 to 1. */
  static double iou(double[][] a, double[][] b) {
    for (int k = 0; k < 2; k++) {
      if (max(a, k) < min(b, k) || max(b, k) < min(a, k)) {
        return 0;
      }
    }
    double common = area(clip(a, b));
    double union = area(a) + area(b) - common;
    return union > 0 ? common / union : 0;
  }

  private static double max(double[][] p, int k) {
    double m = Double.NEGATIVE_INFINITY;
    for (double[] c : p) {
      m = Math.max(m, c[k]);
    }
    return m;
  }

  private static double min(double[][] p, int k) {
    double m = Double.POSITIVE_INFINITY;
    for (double[] c : p) {
      m = Math.min(m, c[k]);
    }
    return m;
  }

  static double[] middle(double[] p, double[] q) {
    return new double[] {(p[0] + q[0]) / 2, (p[1] + q[1]) / 2};
  }

  static double distance(double[] p, double[] q) {
    return Math.hypot(p[0] - q[0], p[1] - q[1]);
  }
}
