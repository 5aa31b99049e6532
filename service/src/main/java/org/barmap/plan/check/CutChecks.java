package org.barmap.plan.check;

import java.util.ArrayList;
import java.util.List;
import org.barmap.map.Navigation;
import org.barmap.map.Severity;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.order.Loop;
import org.barmap.plan.order.OrderOfPlay;
import org.barmap.plan.order.Performance;
import org.barmap.plan.page.Sides;
import org.barmap.plan.piece.Piece;
import org.barmap.plan.piece.Span;

/** Says what follows from each cut of a number. */
public final class CutChecks {
  private final OrderOfPlay order;
  private final List<Piece> pieces;
  private final CutReport report;

  private CutChecks(CutReport report) {
    this.report = report;
    this.order = report.order();
    this.pieces = order.pieces();
  }

  /**
   * Returns what follows from the cuts of a number.
   *
   * @param instruments the instrument at each piece; empty text where unknown
   */
  public static List<PlanFinding> of(
      Performance performance, List<Span> spans, List<String> instruments, Sides sides) {
    List<PlanFinding> findings = new ArrayList<>();
    OrderOfPlay order = performance.order();
    CutReport report = new CutReport(order, findings);
    CutChecks checks = new CutChecks(report);
    CutJoin joins = new CutJoin(report, performance.keys());
    for (CutStretch cut : CutStretch.of(order.pieces(), spans)) {
      checks.repeats(cut);
      checks.signs(cut);
      joins.join(cut, instruments, sides);
    }
    return findings;
  }

  private void repeats(CutStretch cut) {
    for (Loop loop : order.repeats()) {
      boolean start = cut.holds(loop.start()) && pieces.get(loop.start()).cut();
      boolean end = cut.holds(loop.end()) && pieces.get(loop.end()).endCut();
      if (!loop.parts().isEmpty()) {
        endings(cut, loop);
      } else if (start && !end) {
        startTaken(cut, loop);
      } else if (end && !start) {
        report.find(
            cut,
            Severity.DOUBT,
            "cut-repeat",
            "The cut takes the repeat sign at the end of bar "
                + report.name(loop.end())
                + "; bars "
                + report.name(loop.start())
                + " to "
                + report.name(cut.first() - (pieces.get(cut.first()).cut() ? 1 : 0))
                + " are played once. If they are still repeated, write the sign before the cut");
      }
    }
  }

  private void startTaken(CutStretch cut, Loop loop) {
    report.find(
        cut,
        Severity.DOUBT,
        "cut-repeat",
        "The cut takes the start of the repeat of bars "
            + report.range(loop)
            + "; it now goes back to bar "
            + report.name(cut.last() + 1));
  }

  private void endings(CutStretch cut, Loop loop) {
    if (cut.holds(loop.start()) && cut.holds(loop.end()) && pieces.get(loop.start()).cut()) {
      return; // the whole repeat is cut
    }
    Loop.Ending first = loop.parts().get(0);
    boolean begins = cut.first() >= first.start() && cut.first() <= first.end();
    boolean takesRepeat =
        loop.parts().stream()
            .anyMatch(p -> p.closes() && cut.holds(p.end()) && pieces.get(p.end()).endCut());
    if (takesRepeat) {
      report.find(
          cut,
          Severity.DOUBT,
          "cut-in-ending",
          "The cut "
              + (begins ? "starts in the first ending and takes" : "takes")
              + " the repeat back to bar "
              + report.name(loop.start())
              + ": you go on after the cut without it. If it still holds, write the sign before the"
              + " cut");
    } else if (cut.holds(loop.start()) && pieces.get(loop.start()).cut()) {
      startTaken(cut, loop);
    } else if (loop.parts().stream().anyMatch(p -> opensInside(cut, p))) {
      report.find(
          cut,
          Severity.DOUBT,
          "cut-in-ending",
          "The cut takes the start of an ending of bars "
              + report.range(loop)
              + ": mark which time what is left of it is played");
    }
  }

  private boolean opensInside(CutStretch cut, Loop.Ending part) {
    return cut.holds(part.start()) && !cut.holds(part.end());
  }

  private void signs(CutStretch cut) {
    for (int i = cut.first(); i <= cut.last(); i++) {
      Piece piece = pieces.get(i);
      if (starts(piece, Navigation.SEGNO) && left(Navigation.DAL_SEGNO, i)) {
        report.find(
            cut,
            Severity.ERROR,
            "cut-segno",
            "The segno is cut, but its D.S. is not: the D.S. is passed over; say where it goes back to");
      }
      if (starts(piece, Navigation.CODA) && left(Navigation.TO_CODA, i)) {
        report.find(
            cut,
            Severity.ERROR,
            "cut-coda",
            "The start of the coda is cut, but the To Coda is not: you land after the cut, at bar "
                + report.name(cut.last() + 1));
      }
      if (ends(piece, Navigation.TO_CODA)
          && pieces.stream().anyMatch(p -> p.first() && !p.cut() && p.bar().has(Navigation.CODA))) {
        report.find(
            cut,
            Severity.ERROR,
            "cut-to-coda",
            "The To Coda is cut: after the D.C. or D.S. you play on and never jump to the coda");
      }
      if (ends(piece, Navigation.FINE)
          && (left(Navigation.DA_CAPO, i) || left(Navigation.DAL_SEGNO, i))) {
        report.find(
            cut,
            Severity.ERROR,
            "cut-fine",
            "The Fine is cut: after the D.C. or D.S. you play to the end");
      }
      if (ends(piece, Navigation.DA_CAPO) || ends(piece, Navigation.DAL_SEGNO)) {
        report.find(
            cut,
            Severity.DOUBT,
            "cut-jump",
            "A D.C. or D.S. is cut with its bar: you don't go back");
      }
    }
  }

  private static boolean starts(Piece piece, Navigation sign) {
    return piece.first() && piece.cut() && piece.bar().has(sign);
  }

  private static boolean ends(Piece piece, Navigation sign) {
    return piece.last() && piece.endCut() && piece.bar().has(sign);
  }

  /** Tells whether a sign is still in force somewhere else. */
  private boolean left(Navigation sign, int but) {
    for (int i = 0; i < pieces.size(); i++) {
      if (i != but
          && pieces.get(i).last()
          && pieces.get(i).bar().has(sign)
          && !pieces.get(i).endCut()) {
        return true;
      }
    }
    return false;
  }
}
