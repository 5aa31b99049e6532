package org.barmap.page.level;

import java.util.List;
import org.barmap.map.Point;
import org.barmap.page.pixel.PageSettings;
import org.opencv.core.Mat;

/** Tells the edge of a sheet from the edge of a shadow. */
final class PageEdge {

  private static final PageSettings.Sheet SET = PageSettings.STANDARD.sheet();

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
    for (int i = 0; i < corners.size(); i++) {
      Point a = corners.get(i);
      Point b = corners.get((i + 1) % corners.size());
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
    for (double t = SET.corner() * length; t < (1 - SET.corner()) * length; t += 2) {
      double x = a.x() + (b.x() - a.x()) * t / length;
      double y = a.y() + (b.y() - a.y()) * t / length;
      all++;
      boolean border =
          x < SET.border()
              || y < SET.border()
              || x > w - 1 - SET.border()
              || y > h - 1 - SET.border();
      // A bent page leaves its straight side a little: look at a few places across.
      boolean edge = border;
      for (int off = -SET.bent(); off <= SET.bent() && !edge; off += 2) {
        int in = at(v, w, h, x + (off + SET.beside()) * nx, y + (off + SET.beside()) * ny);
        int out = at(v, w, h, x + (off - SET.beside()) * nx, y + (off - SET.beside()) * ny);
        edge = Math.abs(in - out) >= SET.jump();
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
