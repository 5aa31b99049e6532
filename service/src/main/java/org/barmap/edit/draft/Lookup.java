package org.barmap.edit.draft;

import java.util.List;
import java.util.Optional;
import org.barmap.map.Bar;
import org.barmap.map.Page;
import org.barmap.map.Point;
import org.barmap.map.StaffSystem;

/** Looks up systems, bars beside each other, and free ids. */
public final class Lookup {

  private Lookup() {}

  /** Returns a system of a page. */
  public static Optional<StaffSystem> system(Draft draft, int page, int system) {
    return page(draft, page).stream()
        .flatMap(p -> p.systems().stream())
        .filter(s -> s.index() == system)
        .findFirst();
  }

  /** Returns a page. */
  public static Optional<Page> page(Draft draft, int page) {
    return draft.map().pages().stream().filter(p -> p.index() == page).findFirst();
  }

  /** Returns the bar left of another in the same system. */
  public static Optional<Bar> before(Draft draft, Bar bar) {
    return beside(draft, bar, -1);
  }

  /** Returns the bar right of another in the same system. */
  public static Optional<Bar> after(Draft draft, Bar bar) {
    return beside(draft, bar, 1);
  }

  private static Optional<Bar> beside(Draft draft, Bar bar, int step) {
    List<Bar> bars = draft.barsIn(bar.page(), bar.system());
    int at = bars.indexOf(bar) + step;
    return at < 0 || at >= bars.size() ? Optional.empty() : Optional.of(bars.get(at));
  }

  /** Returns the upright line through a point at a bar's system, if the point is there. */
  public static Optional<Ruler.Edge> edge(Draft draft, int page, int system, Point p) {
    return system(draft, page, system)
        .flatMap(s -> Ruler.of(s, draft.barsIn(page, system)).through(p));
  }

  /** Returns an id no bar has, "h1" for the first one made by hand. */
  public static String freshId(Draft draft) {
    int highest = 0;
    for (Bar bar : draft.map().bars()) {
      if (bar.id().matches("h\\d{1,8}")) {
        highest = Math.max(highest, Integer.parseInt(bar.id().substring(1)));
      }
    }
    return "h" + (highest + 1);
  }

  /** Returns the least width of a bar; pixels. */
  public static double leastWidth(StaffSystem system) {
    return 0.75 * system.staffSpace();
  }
}
