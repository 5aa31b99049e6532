package org.barmap.plan.piece;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.TreeMap;
import java.util.TreeSet;
import org.barmap.map.Bar;
import org.barmap.map.Meter;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.effect.Added;

/** Takes a number apart where changes begin and end, and marks what is cut. */
public final class Pieces {
  private Pieces() {}

  /** Returns the pieces in reading order, what is cut marked. */
  public static List<Piece> of(WrittenNumber number, List<Span> spans) {
    TreeSet<Integer> splits = new TreeSet<>();
    TreeMap<Integer, List<Added>> inserts = new TreeMap<>();
    for (Span span : spans) {
      splits.add(span.from());
      splits.add(span.to() + 1);
      span.effects()
          .added()
          .ifPresent(a -> inserts.computeIfAbsent(span.from(), k -> new ArrayList<>()).add(a));
      if (span.effects().leavesOut()) {
        splits.add(span.from() + 1);
        splits.add(span.to());
      }
    }
    List<Piece> pieces = new ArrayList<>();
    for (int i = 0; i < number.bars().size(); i++) {
      Bar bar = number.bars().get(i);
      int start = number.starts()[i];
      int end = start + bar.count();
      int from = start;
      while (from < end) {
        Integer next = splits.higher(from);
        int to = next == null || next > end ? end : next;
        pieces.add(Piece.of(bar, from - start, to - from, from));
        for (Added added : inserts.getOrDefault(to - 1, List.of())) {
          pieces.add(inserted(bar, added, to));
        }
        from = to;
      }
    }
    for (Span span : spans) {
      if (span.effects().leavesOut()) {
        cut(pieces, span);
      }
    }
    return pieces;
  }

  private static Piece inserted(Bar after, Added added, int slot) {
    return new Piece(after, 0, added.bars(), slot, false, 0, 0, 0, Optional.of(added.name()));
  }

  private static void cut(List<Piece> pieces, Span span) {
    for (int i = firstAt(pieces, span.from()); i < pieces.size(); i++) {
      Piece piece = pieces.get(i);
      if (piece.slot() > span.to() + 1) {
        return;
      }
      boolean within =
          piece.inserted().isPresent()
              ? piece.slot() > span.from() && piece.slot() <= span.to()
              : piece.slot() >= span.from() && piece.slot() <= span.to();
      if (within && !piece.cut()) {
        pieces.set(i, piece.inserted().isPresent() ? piece.withCut() : cutPiece(piece, span));
      }
    }
  }

  private static Piece cutPiece(Piece piece, Span span) {
    double beats = piece.bar().meter().map(Meter::beats).orElse(0);
    boolean firstBar = piece.slot() == span.from();
    boolean lastBar = piece.slot() == span.to();
    double before = firstBar ? Math.min(beats, span.fromBeat().orElse(1) - 1) : 0;
    double through = lastBar ? Math.min(beats, span.toBeat().orElse(beats)) : beats;
    if (beats == 0 || (before == 0 && through >= beats)) {
      return piece.withCut();
    }
    if (before == 0) {
      return piece.withBeatsCut(through, 0, 0);
    }
    return through >= beats
        ? piece.withBeatsCut(0, beats - before, 0)
        : piece.withBeatsCut(0, 0, through - before);
  }

  /** Returns the index of the first piece at or after a slot; pieces lie in the order of slots. */
  public static int firstAt(List<Piece> pieces, int slot) {
    int low = 0;
    int high = pieces.size();
    while (low < high) {
      int middle = (low + high) / 2;
      if (pieces.get(middle).slot() < slot) {
        low = middle + 1;
      } else {
        high = middle;
      }
    }
    return low;
  }
}
