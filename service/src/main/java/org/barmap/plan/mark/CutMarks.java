package org.barmap.plan.mark;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.barmap.map.Meter;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.term.Figures;
import org.barmap.plan.check.CutStretch;
import org.barmap.plan.order.Performance;
import org.barmap.plan.piece.Piece;
import org.barmap.plan.piece.Span;

/**
 * The marks of cuts: a bracket where the cut begins and one where the player lands, the last beat
 * and the first beat where it lies inside bars, a new count over a block of rest instead of
 * brackets in it, and what is in force at the landing and not printed there.
 */
final class CutMarks {
  private final Performance performance;
  private final WrittenNumber number;
  private final List<Piece> pieces;
  private final RestCounts rests;
  private final Held held;
  private final Pencil pencil;

  CutMarks(Performance performance, RestCounts rests, Held held, Pencil pencil) {
    this.held = held;
    this.performance = performance;
    this.number = performance.number();
    this.pieces = performance.order().pieces();
    this.rests = rests;
    this.pencil = pencil;
  }

  void mark(List<Span> spans) {
    for (CutStretch cut : CutStretch.of(pieces, spans)) {
      Optional<String> id = Optional.of(cut.change().meta().id());
      cut(cut, spans, id);
      beats(cut, spans, id);
      new LandingMarks(performance, spans, pencil).mark(cut, id);
      new HandMarks(performance, held, pencil).mark(cut, id);
      for (int i = cut.first(); i <= cut.last(); i++) {
        count(pieces.get(i), id);
      }
    }
    for (RestCounts.Count count : rests.counts()) {
      count.changes().stream().sorted().findFirst().ifPresent(c -> count(count, Optional.of(c)));
    }
  }

  private void count(Piece piece, Optional<String> id) {
    if (rests.inBlock(piece)) {
      rests.of(piece.bar()).ifPresent(c -> count(c, id));
    }
  }

  private void count(RestCounts.Count count, Optional<String> id) {
    if (pencil.has("rest-count", count.bar())) {
      return; // the count with what is held open in it is written already
    }
    for (Piece piece : pieces) {
      if (piece.added().isEmpty() && piece.bar().id().equals(count.bar().id())) {
        int slot = piece.slot() - piece.offset();
        pencil.add(number, slot, count.bar(), "rest-count", count.says(), id);
        return;
      }
    }
  }

  private void cut(CutStretch cut, List<Span> spans, Optional<String> id) {
    int open = cut.first();
    while (open <= cut.last() && rests.inBlock(pieces.get(open))) {
      open++;
    }
    if (open > cut.last()) {
      return; // all of it lies in blocks of rest
    }
    Piece first = pieces.get(open);
    Piece last = pieces.get(cut.last());
    boolean inBar = cut.lands(pieces) == cut.last();
    OptionalDouble entry = inBar ? entry(last, spans) : OptionalDouble.empty();
    int landing = entry.isPresent() ? last.slot() : last.slot() + written(last);
    boolean lands = landing < number.slots();
    String to = lands ? " to " + number.nameAt(landing) : " to the end of the number";
    String beat = entry.isPresent() ? " (beat " + Figures.plain(entry.getAsDouble()) + ")" : "";
    pencil.add(number, first.slot(), first.bar(), "cut", "[ cut" + to + beat, id);
    boolean inside = last.cut() && rests.inBlock(last) && landingInside(last);
    if (lands && !inside) {
      pencil.add(number, landing, number.barAt(landing), "land", "]" + beat, id);
    }
  }

  /** Tells whether the bar after a piece belongs to the same block of rest. */
  private static boolean landingInside(Piece last) {
    return last.offset() + last.count() < last.bar().count();
  }

  private static int written(Piece piece) {
    return piece.inserted().isPresent() ? 0 : piece.count();
  }

  /** The beat at which one lands in a bar. */
  private static OptionalDouble entry(Piece last, List<Span> spans) {
    if (last.cutMiddle() == 0) {
      return OptionalDouble.of(last.cutStart() + 1);
    }
    return within(last, spans)
        .map(s -> OptionalDouble.of(s.toBeat().orElse(0) + 1))
        .orElse(OptionalDouble.of(last.cutStart() + 1));
  }

  /** Which beat is the last one played, which the first, where that is not a bar's own. */
  private void beats(CutStretch cut, List<Span> spans, Optional<String> id) {
    Piece first = pieces.get(cut.first());
    if (first.cut() || first.cutEnd() + first.cutMiddle() == 0) {
      return;
    }
    double inBar = first.bar().meter().map(Meter::beats).orElse(0);
    String says = "out after beat " + Figures.plain(inBar - first.cutEnd());
    if (first.cutMiddle() > 0) {
      says = middle(first, spans).orElse(says);
    }
    pencil.add(number, first.slot(), first.bar(), "beat", says, id);
  }

  private static Optional<String> middle(Piece piece, List<Span> spans) {
    return within(piece, spans)
        .map(
            s ->
                "out: beats "
                    + Figures.plain(s.fromBeat().orElse(1))
                    + " to "
                    + Figures.plain(s.toBeat().orElse(0)));
  }

  /** The beats that are out in the middle of a bar. */
  private static Optional<Span> within(Piece piece, List<Span> spans) {
    return spans.stream()
        .filter(s -> s.effects().leavesOut() && s.from() == piece.slot())
        .filter(s -> s.fromBeat().isPresent() && s.toBeat().isPresent())
        .findFirst();
  }
}
