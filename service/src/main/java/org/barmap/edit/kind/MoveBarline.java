package org.barmap.edit.kind;

import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.barmap.edit.draft.Aspect;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.draft.Lookup;
import org.barmap.edit.draft.Ruler;
import org.barmap.map.Bar;
import org.barmap.map.Outline;
import org.barmap.map.Point;

/**
 * A bar's side stands somewhere else; its neighbour's side goes with it.
 *
 * @param bar id of the bar entry
 * @param side which side of it; absent means its end
 * @param x pixels of the page image
 * @param y pixels of the page image
 */
public record MoveBarline(String bar, Side side, double x, double y) implements Correction {

  private static final Set<Aspect> SHAPED = EnumSet.of(Aspect.SHAPE);

  /** Reads absent keys as an unknown bar and its end. */
  public MoveBarline {
    bar = OneBar.id(bar);
    side = Side.orEnd(side);
  }

  @Override
  public List<String> validate(Draft draft) {
    return OneBar.refusals(draft, bar, b -> problems(draft, b));
  }

  private List<String> problems(Draft draft, Bar b) {
    Optional<Ruler.Edge> edge = Lookup.edge(draft, b.page(), b.system(), new Point(x, y));
    if (edge.isEmpty()) {
      return List.of("That point is not on the system of " + Saying.bar(draft, b));
    }
    double least = Lookup.system(draft, b.page(), b.system()).map(Lookup::leastWidth).orElse(1.0);
    Point middle = edge.get().middle();
    boolean own =
        side == Side.END
            ? Ruler.left(b.outline()).rightOf(middle) >= least
            : -Ruler.right(b.outline()).rightOf(middle) >= least;
    boolean other =
        neighbour(draft, b)
            .map(
                n ->
                    side == Side.END
                        ? -Ruler.right(n.outline()).rightOf(middle) >= least
                        : Ruler.left(n.outline()).rightOf(middle) >= least)
            .orElse(true);
    return own && other ? List.of() : List.of("A barline can't be moved past the next one");
  }

  @Override
  public Draft applyTo(Draft draft) {
    Bar b = draft.map().bar(bar).orElseThrow();
    Ruler.Edge edge = Lookup.edge(draft, b.page(), b.system(), new Point(x, y)).orElseThrow();
    Optional<Bar> neighbour = neighbour(draft, b);
    Draft now = OneBar.put(draft, moved(b, side, edge), SHAPED);
    return neighbour.map(n -> OneBar.put(now, moved(n, side.other(), edge), SHAPED)).orElse(now);
  }

  /** Returns the bar beside it that shares this side: one whose own side is not far from it. */
  private Optional<Bar> neighbour(Draft draft, Bar b) {
    return side.beside(draft, b)
        .filter(
            n -> {
              Outline a = side == Side.END ? b.outline() : n.outline();
              Outline c = side == Side.END ? n.outline() : b.outline();
              double space =
                  Lookup.system(draft, b.page(), b.system()).map(s -> s.staffSpace()).orElse(1.0);
              return Math.abs(Ruler.right(a).rightOf(Ruler.left(c).middle())) < 2 * space;
            });
  }

  private static Bar moved(Bar b, Side side, Ruler.Edge edge) {
    return b.toBuilder()
        .outline(
            side == Side.END
                ? Ruler.between(Ruler.left(b.outline()), edge)
                : Ruler.between(edge, Ruler.right(b.outline())))
        .build();
  }

  @Override
  public String says(Draft draft) {
    return "Barline moved " + side.of(Saying.bar(draft, bar));
  }
}
