package org.barmap.plan.check;

import java.util.List;
import java.util.Optional;
import org.barmap.map.Severity;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.order.Loop;
import org.barmap.plan.order.OrderOfPlay;
import org.barmap.plan.piece.Piece;

/** Writes findings about cuts, with bars as players call them. */
record CutReport(OrderOfPlay order, List<PlanFinding> findings) {

  String range(Loop loop) {
    return name(loop.start()) + " to " + name(loop.end());
  }

  String name(int piece) {
    List<Piece> pieces = order.pieces();
    int i = Math.max(0, Math.min(piece, pieces.size() - 1));
    Piece p = pieces.get(i);
    return p.inserted()
        .orElse(order.number().nameAt(Math.min(p.slot(), order.number().slots() - 1)));
  }

  void find(CutStretch cut, Severity severity, String code, String text) {
    Optional<String> at = Optional.of(order.pieces().get(cut.first()).bar().id());
    findings.add(PlanFinding.change(severity, at, code, text + ".", cut.change()));
  }

  /** Writes a finding about the bar one lands on. */
  void find(CutStretch cut, int landing, Severity severity, String code, String text) {
    Optional<String> at = Optional.of(order.pieces().get(landing).bar().id());
    findings.add(PlanFinding.change(severity, at, code, text + ".", cut.change()));
  }

  /**
   * Writes what is other at the landing.
   *
   * @param seen it stands in print there; else it has to be written
   * @param what what is to be written
   */
  void land(CutStretch cut, int landing, boolean seen, String code, String text, String what) {
    String write = "; that lies inside the cut, write " + what + " at bar " + name(landing);
    find(cut, landing, seen ? Severity.INFO : Severity.DOUBT, code, seen ? text : text + write);
  }
}
