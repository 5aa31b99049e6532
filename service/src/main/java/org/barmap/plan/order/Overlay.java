package org.barmap.plan.order;

import java.util.List;
import java.util.Optional;
import org.barmap.map.Severity;
import org.barmap.plan.change.Choices;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.effect.Rounds;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.piece.Piece;
import org.barmap.plan.piece.Pieces;
import org.barmap.plan.piece.Span;

/** Lays vamps, safeties and "play n times" over the loops of the printed form. */
final class Overlay {
  private final List<Piece> pieces;
  private final List<Loop> loops;
  private final List<PlanFinding> findings;
  private final OpenLayer open;

  Overlay(
      WrittenNumber number,
      List<Piece> pieces,
      List<Loop> loops,
      List<PlanFinding> findings,
      Choices choices) {
    this.open = new OpenLayer(number, pieces, loops, new OpenQuestions(number, findings, choices));
    this.pieces = pieces;
    this.loops = loops;
    this.findings = findings;
  }

  /** Returns what is held open. */
  List<Held> held() {
    return open.held();
  }

  void apply(List<Span> spans) {
    List<Span> said = spans.stream().filter(s -> s.effects().rounds().isPresent()).toList();
    for (Span span : said) {
      span.effects()
          .rounds()
          .filter(r -> r.until() == Rounds.Until.COUNTED)
          .ifPresent(r -> change(span, r));
    }
    open.apply(said);
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
    int times = rounds.times();
    Loop loop = new Loop(start, end, times, List.of(), Optional.empty());
    put(start, end, l -> l.played(times), loop);
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
}
