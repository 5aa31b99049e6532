package org.barmap.page.level;

import java.util.ArrayList;
import java.util.List;
import org.barmap.map.Point;
import org.barmap.page.pixel.PageSettings;

/** The four corners of something like a sheet. */
final class Corners {

  private static final PageSettings.Sheet SET = PageSettings.STANDARD.sheet();

  private static final int FOUR = 4;

  private Corners() {}

  /**
   * Returns the four points of a convex outline that span the most area, top left first, clockwise.
   */
  static List<Point> of(List<Point> hull) {
    List<Point> p = thin(hull);
    int n = p.size();
    double best = -1;
    List<Point> corners = List.of(p.get(0), p.get(0), p.get(0), p.get(0));
    for (int a = 0; a < n; a++) {
      for (int c = a + 2; c < n; c++) {
        int b = farthest(p, a, c, a + 1, c);
        int d = farthest(p, a, c, c + 1, n + a);
        if (b < 0 || d < 0) {
          continue;
        }
        List<Point> four = List.of(p.get(a), p.get(b), p.get(c), p.get(d % n));
        double area = area(four);
        if (area > best) {
          best = area;
          corners = four;
        }
      }
    }
    return ordered(corners);
  }

  private static int farthest(List<Point> p, int a, int c, int from, int to) {
    double best = -1;
    int at = -1;
    for (int i = from; i < to; i++) {
      double d = Math.abs(cross(p.get(a), p.get(c), p.get(i % p.size())));
      if (d > best) {
        best = d;
        at = i;
      }
    }
    return at;
  }

  /** Drops the points that bend the outline least until few enough are left. */
  private static List<Point> thin(List<Point> hull) {
    List<Point> p = new ArrayList<>(hull);
    while (p.size() > SET.hullPoints()) {
      int least = 0;
      double smallest = Double.MAX_VALUE;
      for (int i = 0; i < p.size(); i++) {
        double d =
            Math.abs(
                cross(p.get((i + p.size() - 1) % p.size()), p.get((i + 1) % p.size()), p.get(i)));
        if (d < smallest) {
          smallest = d;
          least = i;
        }
      }
      p.remove(least);
    }
    return p;
  }

  private static double cross(Point a, Point b, Point c) {
    return (b.x() - a.x()) * (c.y() - a.y()) - (b.y() - a.y()) * (c.x() - a.x());
  }

  /** Returns the area of a polygon. */
  static double area(List<Point> p) {
    double sum = 0;
    for (int i = 0; i < p.size(); i++) {
      Point a = p.get(i);
      Point b = p.get((i + 1) % p.size());
      sum += a.x() * b.y() - b.x() * a.y();
    }
    return Math.abs(sum) / 2;
  }

  /** Tells whether corners can be those of a sheet seen from not too far aside. */
  static boolean isSheet(List<Point> c) {
    double top = c.get(0).distance(c.get(1));
    double right = c.get(1).distance(c.get(2));
    double bottom = c.get(2).distance(c.get(3));
    double left = c.get(3).distance(c.get(0));
    if (Math.min(Math.min(top, bottom), Math.min(left, right)) < SET.leastSide()) {
      return false;
    }
    double aspect = (top + bottom) / (left + right);
    boolean even =
        Math.max(top, bottom) < SET.uneven() * Math.min(top, bottom)
            && Math.max(left, right) < SET.uneven() * Math.min(left, right);
    for (int i = 0; i < FOUR; i++) {
      Point a = c.get(i);
      Point b = c.get((i + 1) % FOUR);
      Point d = c.get((i + FOUR - 1) % FOUR);
      double sine = Math.abs(cross(a, b, d)) / (a.distance(b) * a.distance(d));
      even &= sine > SET.leastSine();
    }
    return even && aspect > SET.narrowest() && aspect < SET.widest();
  }

  private static List<Point> ordered(List<Point> four) {
    Point mid = four.get(0).middle(four.get(2)).middle(four.get(1).middle(four.get(3)));
    List<Point> byAngle = new ArrayList<>(four);
    // Clockwise on the screen, starting in the upper left.
    byAngle.sort(
        (a, b) ->
            Double.compare(
                Math.atan2(a.y() - mid.y(), a.x() - mid.x()),
                Math.atan2(b.y() - mid.y(), b.x() - mid.x())));
    int start = 0;
    for (int i = 1; i < FOUR; i++) {
      Point p = byAngle.get(i);
      if (p.x() + p.y() < byAngle.get(start).x() + byAngle.get(start).y()) {
        start = i;
      }
    }
    List<Point> out = new ArrayList<>();
    for (int i = 0; i < FOUR; i++) {
      out.add(byAngle.get((start + i) % FOUR));
    }
    return out;
  }
}
