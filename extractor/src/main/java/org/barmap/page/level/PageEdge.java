package org.barmap.page.level;

import java.util.List;
import org.barmap.map.Point;
import org.opencv.core.Mat;

/** Tells the edge of a sheet from the edge of a shadow. */
final class PageEdge {

  /** The least share of each side along which it must look like an edge of paper. */
  static final double LEAST = 0.7;

  /** Pixels of the small picture from the edge to the places compared. */
  private static final double BESIDE = 3;

  /** Brightness steps between paper and what lies beside it, 20 to a factor of two. */
  private static final int STEP = 4;

  private PageEdge() {}

  /**
   * Returns the share of edge along the least certain side: places where the brightness jumps
   * between a little inside and a little outside. Sides along the border of the picture count as
   * edges.
   */
  static double weakestSide(Mat ratio, List<Point> corners) {
    byte[] values = new byte[(int) ratio.total()];
    ratio.get(0, 0, values);
    double weakest = 1;
    for (int i = 0; i < 4; i++) {
      Point a = corners.get(i);
      Point b = corners.get((i + 1) % 4);
      weakest = Math.min(weakest, share(values, ratio.cols(), ratio.rows(), a, b));
    }
    return weakest;
  }

  private static double share(byte[] v, int w, int h, Point a, Point b) {
    double length = a.distance(b);
    // Inside lies to the right of the way from a to b: the corners go clockwise.
    double nx = -(b.y() - a.y()) / length;
    double ny = (b.x() - a.x()) / length;
    int edges = 0;
    int all = 0;
    for (double t = 0.04 * length; t < 0.96 * length; t += 2) {
      double x = a.x() + (b.x() - a.x()) * t / length;
      double y = a.y() + (b.y() - a.y()) * t / length;
      all++;
      boolean border = x < 4 || y < 4 || x > w - 5 || y > h - 5;
      // A bent page leaves its straight side a little: look at a few places across.
      boolean edge = border;
      for (int off = -4; off <= 4 && !edge; off += 2) {
        int in = at(v, w, h, x + (off + BESIDE) * nx, y + (off + BESIDE) * ny);
        int out = at(v, w, h, x + (off - BESIDE) * nx, y + (off - BESIDE) * ny);
        edge = Math.abs(in - out) >= STEP;
      }
      edges += edge ? 1 : 0;
    }
    return all == 0 ? 0 : edges / (double) all;
  }

  private static int at(byte[] v, int w, int h, double x, double y) {
    int i = (int) Math.max(0, Math.min(w - 1, Math.round(x)));
    int j = (int) Math.max(0, Math.min(h - 1, Math.round(y)));
    return v[j * w + i] & 0xff;
  }
}
