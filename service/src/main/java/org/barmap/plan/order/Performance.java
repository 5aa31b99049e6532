package org.barmap.plan.order;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.barmap.map.Key;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.term.Link;
import org.barmap.plan.pace.Length;
import org.barmap.plan.pace.Measure;
import org.barmap.plan.piece.Piece;
import org.barmap.plan.piece.PlayedPiece;

/**
 * One number as it will be played, with its time.
 *
 * @param order order of play
 * @param measures one for each piece of the order
 * @param keys the key in force in each piece of the order, as far as known
 * @param following how the next number follows
 */
public record Performance(
    OrderOfPlay order, List<Measure> measures, List<Optional<Key>> keys, Following following) {

  /** Takes defensive copies. */
  public Performance {
    measures = List.copyOf(measures);
    keys = List.copyOf(keys);
  }

  /** Returns the same number, followed by the next in another way. */
  public Performance withFollowing(Following other) {
    return new Performance(order, measures, keys, other);
  }

  /** Returns how the next number of the show follows. */
  public Link link() {
    return following.link();
  }

  /** Returns the number as written. */
  public WrittenNumber number() {
    return order.number();
  }

  /** Returns how a step is measured. */
  public Measure measure(PlayedPiece step) {
    return measures.get(step.index());
  }

  /** Returns the tempo it ends in, in quarters a minute; empty where none is known. */
  public OptionalDouble lastTempo() {
    if (order.steps().isEmpty()) {
      return OptionalDouble.empty();
    }
    return measure(order.steps().get(order.steps().size() - 1))
        .pace()
        .map(p -> OptionalDouble.of(p.to()))
        .orElse(OptionalDouble.empty());
  }

  /** Returns the key in force in a step, as far as known. */
  public Optional<Key> key(PlayedPiece step) {
    return keys.get(step.index());
  }

  /** Returns the length of what is played. */
  public Length played() {
    Length whole = Length.none();
    List<OpenRun> runs = OpenRun.of(order);
    int next = 0;
    for (int i = 0; i < order.steps().size(); i++) {
      PlayedPiece step = order.steps().get(i);
      whole = whole.plus(Length.of(step.piece(), measure(step)));
      if (next < runs.size() && runs.get(next).last() == i) {
        whole = whole.with(List.of(runs.get(next).open().named()));
        next++;
      }
    }
    return whole;
  }

  /** Returns the length of what is cut on the way, over all passes. */
  public Length cut() {
    Length whole = Length.none();
    var places = new java.util.IdentityHashMap<Piece, Integer>();
    for (int i = 0; i < order.pieces().size(); i++) {
      places.put(order.pieces().get(i), i);
    }
    for (Piece piece : order.passed()) {
      whole = whole.plus(Length.ofCut(piece, measures.get(places.getOrDefault(piece, 0))));
    }
    for (PlayedPiece step : order.passedOnce()) {
      whole = whole.plus(Length.ofCut(step.piece(), measure(step)));
    }
    for (PlayedPiece step : order.steps()) {
      if (step.piece().beatsCut() > 0) {
        whole = whole.plus(Length.ofCut(step.piece(), measure(step)));
      }
    }
    return whole;
  }
}
