package org.barmap.plan.pace;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Key;
import org.barmap.plan.piece.Piece;
import org.barmap.plan.piece.Span;

/**
 * Tells the key signature in force in each piece of a number, in reading order.
 *
 * <p>A key that a change asks for holds until the next signature drawn in the book, or the next
 * change of key, also when its bar is cut: the player lands in it. Where the map knows no key, none
 * is known.
 */
public final class Keys {
  private Keys() {}

  /** Returns the key of each piece, in the same order. */
  public static List<Optional<Key>> read(List<Piece> pieces, List<Span> spans) {
    List<Span> changes =
        spans.stream().filter(s -> s.effects().inForce().fifths().isPresent()).toList();
    List<Optional<Key>> keys = new ArrayList<>(pieces.size());
    Optional<Key> now = Optional.empty();
    boolean changed = false;
    for (Piece piece : pieces) {
      if (piece.first() && (!changed || piece.bar().key().filter(Key::printed).isPresent())) {
        now = piece.bar().key();
        changed = false;
      }
      for (Span span : changes) {
        if (span.from() == piece.slot() && piece.inserted().isEmpty()) {
          now = Optional.of(new Key(span.effects().inForce().fifths().getAsInt(), true));
          changed = true;
        }
      }
      keys.add(now);
    }
    return keys;
  }
}
