package org.barmap.plan.piece;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.barmap.map.Bar;
import org.barmap.plan.change.Choices;
import org.barmap.plan.change.WrittenNumber;

/** Takes a number apart where changes begin and end, and marks what is cut. */
public final class Pieces {
  private Pieces() {}

  /** Returns a piece with what a change puts into it as if it were printed there. */
  public static Piece put(Piece piece, Span span) {
    return AsSaid.in(piece, span);
  }

  /** Returns the pieces in reading order, what is cut marked. */
  public static List<Piece> of(Given given, Choices choices) {
    WrittenNumber number = given.number();
    List<Span> spans = given.spans();
    TreeSet<Integer> splits = new TreeSet<>();
    for (Span span : spans) {
      splits.add(span.from());
      splits.add(span.to() + 1);
      given.exit(span).ifPresent(exit -> splits.add(exit + 1));
      if (span.effects().leavesOut()) {
        splits.add(span.from() + 1);
        splits.add(span.to());
      }
    }
    for (PrintedOpen printed : given.printed()) {
      splits.add(printed.from());
      printed.to().ifPresent(to -> splits.add(to + 1));
    }
    TreeMap<Integer, List<NewBars.Row>> rows = new NewBars(number, spans, choices).rows();
    List<Piece> pieces = new ArrayList<>();
    for (int i = 0; i < number.bars().size(); i++) {
      Bar bar = number.bars().get(i);
      int start = number.starts()[i];
      int end = start + bar.count();
      int from = start;
      while (from < end) {
        Integer next = splits.higher(from);
        int to = next == null || next > end ? end : next;
        List<NewBars.Row> before = rows.getOrDefault(from, List.of());
        before.forEach(r -> pieces.addAll(r.pieces()));
        Piece piece = Piece.of(bar, from - start, to - from, from);
        boolean startMoved = before.stream().anyMatch(r -> !r.after() && r.takesSigns());
        boolean endMoved =
            rows.getOrDefault(to, List.of()).stream().anyMatch(r -> r.after() && r.takesSigns());
        pieces.add(
            piece.withSigns(piece.startSigns() && !startMoved, piece.endSigns() && !endMoved));
        from = to;
      }
    }
    rows.getOrDefault(number.slots(), List.of()).forEach(r -> pieces.addAll(r.pieces()));
    AsSaid.over(pieces, spans);
    Set<String> staying = new HashSet<>();
    rows.values().stream()
        .flatMap(List::stream)
        .filter(NewBars.Row::stays)
        .forEach(r -> staying.add(r.span().change().meta().id()));
    Set<List<Object>> done = new HashSet<>();
    Map<Integer, BeatsOut> beats = new HashMap<>();
    for (Span span : spans) {
      if (span.effects().leavesOut() && done.add(bars(span))) {
        cut(number, pieces, span, staying, beats);
      }
    }
    return pieces;
  }

  /** The same bars and beats cut twice are cut once. */
  private static List<Object> bars(Span span) {
    return List.of(
        span.from(), span.to(), span.fromBeat(), span.toBeat(), span.fromAdded(), span.toAdded());
  }

  private static void cut(
      WrittenNumber number,
      List<Piece> pieces,
      Span span,
      Set<String> staying,
      Map<Integer, BeatsOut> beats) {
    int last = last(pieces, span);
    for (int i = first(pieces, span); i >= 0 && i <= last; i++) {
      Piece piece = pieces.get(i);
      boolean stays = piece.added().filter(a -> staying.contains(a.change())).isPresent();
      if (!piece.cut() && !stays && !BeatsOut.saysWhatGoes(number, piece, span)) {
        BeatsOut out = beats.computeIfAbsent(i, k -> new BeatsOut(piece));
        pieces.set(i, piece.added().isPresent() ? piece.withCut() : out.with(span));
      }
    }
  }

  /** Returns the index of the first piece of a span; -1 where it is not there. */
  public static int first(List<Piece> pieces, Span span) {
    if (span.fromAdded().isPresent()) {
      return added(pieces, span.fromAdded().get(), span.from());
    }
    for (int i = firstAt(pieces, span.from()); i < pieces.size(); i++) {
      if (pieces.get(i).added().isEmpty()) {
        return pieces.get(i).slot() == span.from() ? i : -1;
      }
    }
    return -1;
  }

  /** Returns the index of the last piece of a span; -1 where it is not there. */
  public static int last(List<Piece> pieces, Span span) {
    if (span.toAdded().isPresent()) {
      return added(pieces, span.toAdded().get(), span.to());
    }
    for (int i = firstAt(pieces, span.to() + 1) - 1; i >= 0; i--) {
      if (pieces.get(i).added().isEmpty()) {
        return i;
      }
    }
    return -1;
  }

  private static int added(List<Piece> pieces, String label, int near) {
    for (int i = firstAt(pieces, near); i < pieces.size(); i++) {
      if (pieces.get(i).added().flatMap(Inserted::label).filter(label::equals).isPresent()) {
        return i;
      }
    }
    return -1;
  }

  /** Returns what is left of a piece when a change leaves out what it names of it. */
  public static Piece without(Piece piece, Span span) {
    return piece.added().isPresent() ? piece.withCut() : new BeatsOut(piece).with(span);
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
