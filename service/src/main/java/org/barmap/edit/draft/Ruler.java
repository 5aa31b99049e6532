package org.barmap.edit.draft;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Bar;
import org.barmap.map.Outline;
import org.barmap.map.Point;
import org.barmap.map.StaffSystem;

/**
 * Finds where an upright line through a point crosses a system, however sloped or bent its staff
 * is.
 *
 * <p>It knows the staff only by the edges already there: the sides of its bars and the ends of the
 * system. Between two of them the staff lines are taken as straight.
 */
public final class Ruler {

  /** How far from the staff a point may lie and still belong to it; staff spaces. */
  private static final double REACH = 6;

  private static final int STEPS = 50;

  private final StaffSystem system;
  private final List<Edge> edges = new ArrayList<>();

  private Ruler(StaffSystem system) {
    this.system = system;
  }

  /** An upright line across the staff; pixels. */
  public record Edge(Point top, Point bottom) {

    /** Returns the middle. */
    public Point middle() {
      return top.middle(bottom);
    }

    /** Returns how far right of this line a point lies; pixels, negative for left. */
    public double rightOf(Point p) {
      double dx = bottom.x() - top.x();
      double dy = bottom.y() - top.y();
      double length = Math.max(1e-9, Math.hypot(dx, dy));
      return (dy * (p.x() - top.x()) - dx * (p.y() - top.y())) / length;
    }

    /** Returns the line at a share of the way to another one. */
    Edge towards(Edge other, double share) {
      return new Edge(between(top, other.top, share), between(bottom, other.bottom, share));
    }

    private static Point between(Point a, Point b, double share) {
      return new Point(a.x() + (b.x() - a.x()) * share, a.y() + (b.y() - a.y()) * share);
    }
  }

  /** Makes a ruler from a system and its bars, left to right. */
  public static Ruler of(StaffSystem system, List<Bar> bars) {
    Ruler ruler = new Ruler(system);
    Outline whole = system.outline();
    ruler.add(left(whole));
    for (Bar bar : bars) {
      ruler.add(left(bar.outline()));
      ruler.add(right(bar.outline()));
    }
    ruler.add(right(whole));
    return ruler;
  }

  private void add(Edge edge) {
    if (edges.isEmpty() || edges.get(edges.size() - 1).rightOf(edge.middle()) > 0.5) {
      edges.add(edge);
    }
  }

  /** Returns the left side of an outline. */
  public static Edge left(Outline outline) {
    return new Edge(outline.topLeft(), outline.bottomLeft());
  }

  /** Returns the right side of an outline. */
  public static Edge right(Outline outline) {
    return new Edge(outline.topRight(), outline.bottomRight());
  }

  /** Returns the outline between two upright lines, corners rounded as the format writes them. */
  public static Outline between(Edge from, Edge to) {
    return new Outline(from.top, to.top, to.bottom, from.bottom).rounded();
  }

  /**
   * Returns the upright line through a point.
   *
   * @return empty when the point is left or right of the system, or too far above or below it
   */
  public Optional<Edge> through(Point p) {
    for (int i = 0; i + 1 < edges.size(); i++) {
      Edge a = edges.get(i);
      Edge b = edges.get(i + 1);
      if (a.rightOf(p) >= 0 && b.rightOf(p) <= 0) {
        return Optional.of(search(a, b, p)).filter(e -> isNear(e, p));
      }
    }
    return Optional.empty();
  }

  private static Edge search(Edge a, Edge b, Point p) {
    double low = 0;
    double high = 1;
    for (int step = 0; step < STEPS; step++) {
      double share = (low + high) / 2;
      if (a.towards(b, share).rightOf(p) >= 0) {
        low = share;
      } else {
        high = share;
      }
    }
    return a.towards(b, (low + high) / 2);
  }

  private boolean isNear(Edge edge, Point p) {
    double half = edge.top.distance(edge.bottom) / 2;
    return edge.middle().distance(p) <= half + REACH * system.staffSpace();
  }
}
