package org.barmap.plan.order;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import org.barmap.map.Severity;
import org.barmap.map.Word;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.effect.Rounds;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.term.Leave;
import org.barmap.plan.piece.Piece;
import org.barmap.plan.piece.Pieces;
import org.barmap.plan.piece.Span;

/** Lays vamps, safeties and "play n times" over the loops of the printed form. */
final class Overlay {
  private static final Pattern VAMP =
      Pattern.compile("\\bvamp\\b", Pattern.CASE_INSENSITIVE | Pattern.UNICODE_CASE);
  private static final Pattern SAFETY =
      Pattern.compile("\\bsafety\\b", Pattern.CASE_INSENSITIVE | Pattern.UNICODE_CASE);

  private final List<Piece> pieces;
  private final List<Loop> loops;
  private final List<PlanFinding> findings;
  private final List<OpenStretch> open = new ArrayList<>();

  Overlay(List<Piece> pieces, List<Loop> loops, List<PlanFinding> findings) {
    this.pieces = pieces;
    this.loops = loops;
    this.findings = findings;
  }

  List<OpenStretch> open() {
    return open;
  }

  /** Changes go first: what a change says of a stretch, the printed word doesn't undo. */
  void apply(List<Span> spans) {
    List<Span> loopsSaid = spans.stream().filter(s -> s.effects().rounds().isPresent()).toList();
    for (Span span : loopsSaid) {
      span.effects().rounds().ifPresent(r -> change(span, r));
    }
    for (int i = 0; i < pieces.size(); i++) {
      if (pieces.get(i).first() && !pieces.get(i).cut()) {
        printed(i, loopsSaid);
      }
    }
  }

  private void change(Span span, Rounds rounds) {
    int start = Pieces.first(pieces, span);
    int end = Pieces.last(pieces, span);
    ShowChange change = span.change();
    if (start < 0 || end < start) {
      return; // added bars that were not added
    }
    for (Loop loop : loops) {
      boolean apart = end < loop.start() || start > loop.end();
      boolean inside = start >= loop.start() && end <= loop.end();
      boolean around = start <= loop.start() && end >= loop.end();
      if (!apart && !inside && !around) {
        findings.add(
            PlanFinding.change(
                Severity.ERROR,
                Optional.of(pieces.get(start).bar().id()),
                "crosses-repeat",
                "This "
                    + change.kind()
                    + " begins inside a repeat and ends outside it, or the "
                    + "other way round; it does nothing until its bars are put right",
                change));
        return;
      }
    }
    switch (rounds.until()) {
      case COUNTED -> {
        int times = rounds.times();
        Loop loop = new Loop(start, end, times, List.of(), Optional.empty());
        put(start, end, l -> l.played(times), loop);
      }
      case CUE -> hold(start, end, open(OpenStretch.Kind.VAMP, start, end, rounds, change));
      case DIRECTOR -> hold(start, end, open(OpenStretch.Kind.SAFETY, start, end, rounds, change));
    }
  }

  private OpenStretch open(
      OpenStretch.Kind kind, int start, int end, Rounds rounds, ShowChange change) {
    return new OpenStretch(
        kind,
        pieces.get(start).bar().id(),
        pieces.get(end).bar().id(),
        rounds.leave().map(Leave::word),
        Optional.of(change.meta().id()));
  }

  private void hold(int start, int end, OpenStretch stretch) {
    put(
        start,
        end,
        l -> l.heldOpen(stretch),
        new Loop(start, end, 1, List.of(), Optional.of(stretch)));
    open.add(stretch);
  }

  private void put(int start, int end, java.util.function.UnaryOperator<Loop> same, Loop added) {
    for (int l = 0; l < loops.size(); l++) {
      Loop loop = loops.get(l);
      if (loop.start() == start && loop.end() == end && loop.parts().isEmpty()) {
        loops.set(l, same.apply(loop));
        return;
      }
    }
    loops.add(added);
  }

  /** "Vamp" or "Safety" printed at a bar holds the repeat around it open, or the bar alone. */
  private void printed(int i, List<Span> said) {
    Optional<OpenStretch.Kind> kind = kindOf(pieces.get(i).bar().words());
    int slot = pieces.get(i).slot();
    if (kind.isEmpty() || said.stream().anyMatch(s -> s.from() <= slot && s.to() >= slot)) {
      return;
    }
    Loop around = null;
    for (Loop loop : loops) {
      if (loop.holds(i) && (around == null || loop.length() < around.length())) {
        around = loop;
      }
    }
    int start = around == null ? i : around.start();
    int end = around == null ? i : around.end();
    if (around != null && (around.open().isPresent() || !around.parts().isEmpty())) {
      return;
    }
    hold(
        start,
        end,
        new OpenStretch(
            kind.get(),
            pieces.get(start).bar().id(),
            pieces.get(end).bar().id(),
            Optional.empty(),
            Optional.empty()));
  }

  private static Optional<OpenStretch.Kind> kindOf(List<Word> words) {
    for (Word word : words) {
      if (VAMP.matcher(word.text()).find()) {
        return Optional.of(OpenStretch.Kind.VAMP);
      }
      if (SAFETY.matcher(word.text()).find()) {
        return Optional.of(OpenStretch.Kind.SAFETY);
      }
    }
    return Optional.empty();
  }
}
