package org.barmap.plan.page;

import java.util.List;
import java.util.OptionalDouble;
import org.barmap.map.Outline;
import org.barmap.map.Page;
import org.barmap.map.Point;
import org.barmap.map.StaffSystem;

/**
 * Tells whether two pages stand side by side in one picture. Pages of one document share its file
 * name too, so what decides is where their lines are: along the staves the first page ends before
 * the second begins.
 */
final class SamePicture {
  private SamePicture() {}

  static boolean holds(Page left, Page right) {
    if (!left.source().equals(right.source())
        || left.width() != right.width()
        || left.height() != right.height()
        || left.systems().isEmpty() && right.systems().isEmpty()) {
      return false;
    }
    StaffSystem line = left.systems().isEmpty() ? right.systems().get(0) : left.systems().get(0);
    Point a = line.outline().topLeft();
    Point b = line.outline().topRight();
    double dx = b.x() - a.x();
    double dy = b.y() - a.y();
    double middle = (dx * left.width() + dy * left.height()) / 2;
    double ends = along(left.systems(), dx, dy, true).orElse(middle);
    double begins = along(right.systems(), dx, dy, false).orElse(middle);
    return ends <= begins;
  }

  /** Returns how far lines reach, or where they begin, along a direction; empty without lines. */
  private static OptionalDouble along(
      List<StaffSystem> lines, double dx, double dy, boolean furthest) {
    var places =
        lines.stream()
            .map(StaffSystem::outline)
            .flatMap(o -> corners(o).stream())
            .mapToDouble(p -> p.x() * dx + p.y() * dy);
    return furthest ? places.max() : places.min();
  }

  private static List<Point> corners(Outline o) {
    return List.of(o.topLeft(), o.topRight(), o.bottomRight(), o.bottomLeft());
  }
}
