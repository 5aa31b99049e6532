package org.barmap.plan.mark;

import java.util.List;
import java.util.Optional;
import org.barmap.map.Key;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.order.Performance;
import org.barmap.plan.piece.Piece;
import org.barmap.plan.piece.Span;

/** Writes the keys of bars that are moved up or down: at their start and at printed signatures. */
public final class KeyMarks {
  private KeyMarks() {}

  /** Adds the marks of a number. */
  public static void mark(Performance performance, List<Span> spans, Pencil pencil) {
    for (Span span : spans) {
      if (span.effects().course().put().filter(p -> p.semitones().isPresent()).isPresent()) {
        one(performance, span, pencil);
      }
    }
  }

  private static void one(Performance performance, Span span, Pencil pencil) {
    WrittenNumber number = performance.number();
    List<Piece> pieces = performance.order().pieces();
    boolean begun = false;
    for (int i = 0; i < pieces.size(); i++) {
      Piece piece = pieces.get(i);
      boolean inside = piece.slot() >= span.from() && piece.slot() <= span.to();
      if (!inside || piece.cut() || piece.added().isPresent()) {
        continue;
      }
      Optional<Key> key = performance.keys().get(i);
      boolean printed = piece.first() && piece.bar().key().filter(Key::printed).isPresent();
      if (key.isPresent() && (printed || !begun)) {
        pencil.add(
            number,
            piece.slot(),
            number.barAt(piece.slot()),
            "key",
            key.get().says(),
            Optional.of(span.change().meta().id()));
      }
      begun = true;
    }
  }
}
