package org.barmap.plan.words.bar;

import java.util.List;
import java.util.OptionalDouble;
import org.barmap.map.Meter;
import org.barmap.plan.change.Place;
import org.barmap.plan.change.term.Figures;
import org.barmap.plan.change.term.NoteNames;

/**
 * One stretch of bars that words may mean.
 *
 * @param first address of its first bar
 * @param last address of its last bar
 * @param says its bars, to be read: "bars 7 to 11 (5 bars)"
 * @param out the same as what is out: "7 to 11 (5 bars)"
 * @param lands where one lands behind it: "you land on 12"
 * @param named its beats are named by their note, as "beat" could mean another
 */
public record Way(String first, String last, String says, String out, String lands, boolean named) {

  /** Returns what is wrong with going from one place to another; empty where nothing is. */
  static String wrong(Scope scope, Edge.At a, Edge.At b) {
    int from = a.place().slot();
    int to = b.place().slot();
    if (from < 0 || to >= scope.slots() || from >= scope.slots()) {
      return "That reaches beyond " + scope.number().spoken() + ".";
    }
    boolean none =
        from > to
            || (from == to
                && b.place().beat().orElse(Double.MAX_VALUE) < a.place().beat().orElse(1));
    return none
        ? "That leaves no bars: it begins at " + a.name() + " and ends at " + b.name() + "."
        : "";
  }

  /** Returns the way from one place to another; two where a beat may be one of two. */
  static List<Way> of(Scope scope, Edge.At a, Edge.At b) {
    int perA = unsure(scope, a);
    int perB = unsure(scope, b);
    if (perA == 1 && perB == 1) {
      return List.of(way(scope, a, b, false));
    }
    Edge.At firstFigure = named(scope, a, a.place().beat().orElse(0));
    Edge.At lastFigure = named(scope, b, b.place().beat().orElse(0));
    Way figures = way(scope, firstFigure, lastFigure, true);
    double first = (a.place().beat().orElse(1) - 1) * perA + 1;
    double last = b.place().beat().orElse(1) * perB;
    boolean there =
        first <= scope.beatsAt(a.place().slot()) && last <= scope.beatsAt(b.place().slot());
    if (!there) {
      return List.of(figures);
    }
    return List.of(way(scope, named(scope, a, first), named(scope, b, last), true), figures);
  }

  /** Where "beat" may be the one shown: how many of the lower figure that is. */
  private static int unsure(Scope scope, Edge.At at) {
    return at.place().beat().isPresent() && !at.sure() ? scope.perShownBeat(at.place().slot()) : 1;
  }

  private static Edge.At named(Scope scope, Edge.At at, double beat) {
    if (at.place().beat().isEmpty() || at.sure()) {
      return at;
    }
    int slot = at.place().slot();
    String name =
        scope.nameAt(slot)
            + " "
            + scope.meterAt(slot).map(Way::note).orElse("beat")
            + " "
            + Figures.plain(beat);
    return new Edge.At(new Place(slot, OptionalDouble.of(beat)), name, true);
  }

  private static String note(Meter meter) {
    return NoteNames.of(meter.unit());
  }

  private static Way way(Scope scope, Edge.At a, Edge.At b, boolean named) {
    int from = a.place().slot();
    int to = b.place().slot();
    String start = spoken(scope, a);
    String end = spoken(scope, b);
    boolean whole = a.place().beat().isEmpty() && b.place().beat().isEmpty();
    boolean one = from == to && whole;
    int bars = to - from + 1;
    String count = bars > 1 && whole ? " (" + bars + " bars)" : "";
    String says = one ? "bar " + start : "bars " + start + " to " + end + count;
    String out = one ? "bar " + start : start + " to " + end + count;
    return new Way(a.name(), b.name(), says, out, lands(scope, a, b), named);
  }

  private static String lands(Scope scope, Edge.At a, Edge.At b) {
    int slot = b.place().slot();
    double beat = b.place().beat().orElse(Double.MAX_VALUE);
    if (beat < scope.beatsAt(slot)) {
      String unit = b.sure() ? scope.meterAt(slot).map(Way::note).orElse("beat") : "beat";
      return "you land on " + scope.nameAt(slot) + " " + unit + " " + Figures.plain(beat + 1);
    }
    int from = a.place().slot();
    if (slot + 1 < scope.slots()) {
      boolean begins = from == 0 && a.place().beat().orElse(1) == 1;
      return (begins ? "you begin at " : "you land on ") + scope.nameAt(slot + 1);
    }
    boolean inside = a.place().beat().orElse(1) > 1;
    return from == 0 && !inside
        ? "nothing of the number is left"
        : "the number ends "
            + (inside ? "inside " + scope.nameAt(from) : "after " + scope.nameAt(from - 1));
  }

  private static String spoken(Scope scope, Edge.At at) {
    String bar = scope.nameAt(at.place().slot());
    if (at.place().beat().isEmpty()) {
      return bar;
    }
    String unit =
        at.sure() ? scope.meterAt(at.place().slot()).map(Way::note).orElse("beat") : "beat";
    return bar + " " + unit + " " + Figures.plain(at.place().beat().getAsDouble());
  }
}
