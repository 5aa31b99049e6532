package org.barmap.edit.kind;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.function.BiConsumer;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.function.UnaryOperator;
import org.barmap.edit.draft.Aspect;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.draft.Steps;
import org.barmap.map.Bar;
import org.barmap.map.BarBuilder;
import org.barmap.map.BarMap;
import org.barmap.map.Key;
import org.barmap.map.Meter;

/**
 * What holds from the bar where it is drawn until the next one: the meter and the key.
 *
 * @param aspect that a person set it
 * @param of a bar's
 * @param put sets a bar's
 * @param printed tells whether it is drawn at its bar
 * @param plain the same, not drawn
 * @param overNumbers whether it holds on into the next musical number
 */
public record Held<T>(
    Aspect aspect,
    Function<Bar, Optional<T>> of,
    BiConsumer<BarBuilder, Optional<T>> put,
    Predicate<T> printed,
    UnaryOperator<T> plain,
    boolean overNumbers) {

  public static final Held<Meter> METER =
      new Held<>(
          Aspect.METER,
          Bar::meter,
          BarBuilder::meter,
          Meter::printed,
          m -> m.withPrinted(false),
          true);

  /** A number begins with a signature of its own: what held before it says nothing about it. */
  public static final Held<Key> KEY =
      new Held<>(
          Aspect.KEY, Bar::key, BarBuilder::key, Key::printed, k -> k.withPrinted(false), false);

  /** Returns what holds in a bar, as it goes on after it. */
  public Optional<T> after(Bar bar) {
    return of.apply(bar).map(plain);
  }

  /** Tells whether it is drawn at a bar. */
  public boolean drawnAt(Bar bar) {
    return of.apply(bar).filter(printed).isPresent();
  }

  /** Returns the bar with it. */
  public Bar with(Bar bar, Optional<T> now) {
    BarBuilder builder = bar.toBuilder();
    put.accept(builder, now);
    return builder.build();
  }

  /** Returns what holds at a bar of a map when nothing is drawn at it. */
  public Optional<T> before(BarMap map, int at) {
    boolean continues =
        at > 0 && (overNumbers || !Steps.startsOf(map).contains(map.bars().get(at).id()));
    return continues ? after(map.bars().get(at - 1)) : Optional.empty();
  }

  /**
   * Returns the draft in which a person set it at a bar: it holds on to the next one drawn.
   *
   * @param now what holds from the bar on, given what held before it
   */
  public Draft corrected(Draft draft, String id, UnaryOperator<Optional<T>> now) {
    List<Bar> bars = new ArrayList<>(draft.map().bars());
    int at = draft.map().indexOf(id);
    Bar changed = with(bars.get(at), now.apply(before(draft.map(), at)));
    bars.set(at, OneBar.corrected(changed));
    carry(bars, at, draft, Set.of());
    return draft.withBars(bars).with(draft.settled().with(id, Set.of(aspect)));
  }

  /**
   * Carries what a bar has on to where the next one is drawn.
   *
   * @param bars changed in place
   * @param at where the bar stands in them
   * @param draft what people set of them, and where numbers start
   * @param kept ids of bars that stay as they are
   */
  public void carry(List<Bar> bars, int at, Draft draft, Set<String> kept) {
    Set<String> starts = overNumbers ? Set.of() : Steps.startsOf(draft.map());
    Optional<T> held = after(bars.get(at));
    for (int i = at + 1; i < bars.size(); i++) {
      Bar b = bars.get(i);
      if (drawnAt(b) || starts.contains(b.id())) {
        return;
      }
      if (!Objects.equals(of.apply(b), held) && !kept.contains(b.id())) {
        bars.set(i, with(b, held));
      }
    }
  }

  /**
   * Returns the draft in which what does not hold over numbers ends where numbers now start.
   *
   * @param before ids of the bars at which numbers started when it was last carried on
   * @param kept ids of bars that stay as they are
   */
  public Draft fitted(Set<String> before, Draft draft, Set<String> kept) {
    Set<String> now = Steps.startsOf(draft.map());
    if (overNumbers || now.equals(before)) {
      return draft;
    }
    List<Bar> bars = new ArrayList<>(draft.map().bars());
    for (int i = 0; i < bars.size(); i++) {
      Bar b = bars.get(i);
      boolean moved = now.contains(b.id()) != before.contains(b.id());
      if (moved && !drawnAt(b) && !kept.contains(b.id())) {
        boolean goesOn = i > 0 && !now.contains(b.id());
        bars.set(i, with(b, goesOn ? after(bars.get(i - 1)) : Optional.empty()));
        carry(bars, i, draft, kept);
      }
    }
    return draft.withBars(bars);
  }
}
