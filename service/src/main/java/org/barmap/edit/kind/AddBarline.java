package org.barmap.edit.kind;

import java.util.List;
import java.util.Optional;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.draft.Lookup;
import org.barmap.edit.draft.Ruler;
import org.barmap.map.Bar;
import org.barmap.map.Point;
import org.barmap.map.StaffSystem;

/**
 * A barline stands at a point of a system: it splits the bar there, or closes a bar where the
 * reading had none.
 *
 * @param page page index
 * @param system system index on the page
 * @param x pixels of the page image
 * @param y pixels of the page image
 * @param before how many bars of a multi-bar rest stand before it; where that is all of them, a bar
 *     of music comes after it. Where nothing is said, the place of the line shares them out
 */
public record AddBarline(int page, int system, double x, double y, Optional<Integer> before)
    implements Correction {

  /** Reads an absent count as not said. */
  public AddBarline {
    before = before == null ? Optional.empty() : before;
  }

  /** A barline with nothing said of a rest it may split. */
  public AddBarline(int page, int system, double x, double y) {
    this(page, system, x, y, Optional.empty());
  }

  @Override
  public List<String> validate(Draft draft) {
    Optional<StaffSystem> found = Lookup.system(draft, page, system);
    if (found.isEmpty()) {
      return List.of("There is no system " + system + " on page " + page);
    }
    Optional<Ruler.Edge> edge = Lookup.edge(draft, page, system, new Point(x, y));
    if (edge.isEmpty()) {
      return List.of("That point is not on system " + system + " of page " + page);
    }
    double least = Lookup.leastWidth(found.get());
    boolean close =
        draft.barsIn(page, system).stream()
            .anyMatch(
                b ->
                    Math.abs(Ruler.left(b.outline()).rightOf(edge.get().middle())) < least
                        || Math.abs(Ruler.right(b.outline()).rightOf(edge.get().middle())) < least);
    if (close) {
      return List.of("There is a barline already; move it instead");
    }
    int most = around(draft, edge.get().middle()).map(Bar::count).orElse(1);
    return before.filter(n -> n < 1 || n > most).isPresent()
        ? List.of("Before the line stand 1 to " + most + " bars of the rest")
        : List.of();
  }

  @Override
  public Draft applyTo(Draft draft) {
    Ruler.Edge edge = Lookup.edge(draft, page, system, new Point(x, y)).orElseThrow();
    Optional<Bar> inside = around(draft, edge.middle());
    return inside.isPresent()
        ? Splitting.split(draft, inside.get(), edge, before)
        : Splitting.close(draft, Lookup.system(draft, page, system).orElseThrow(), page, edge);
  }

  /** Returns the bar it splits; empty where it closes one. */
  public Optional<Bar> inside(Draft draft) {
    return Lookup.edge(draft, page, system, new Point(x, y))
        .flatMap(edge -> around(draft, edge.middle()));
  }

  private Optional<Bar> around(Draft draft, Point p) {
    return draft.barsIn(page, system).stream()
        .filter(
            b -> Ruler.left(b.outline()).rightOf(p) > 0 && Ruler.right(b.outline()).rightOf(p) < 0)
        .findFirst();
  }

  @Override
  public String says(Draft draft) {
    return around(draft, new Point(x, y))
        .map(b -> "Barline added in " + Saying.bar(draft, b))
        .orElse("Barline added on page " + page + ", system " + system);
  }
}
