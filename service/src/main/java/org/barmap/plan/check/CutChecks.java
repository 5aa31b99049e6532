package org.barmap.plan.check;

import java.util.ArrayList;
import java.util.List;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.order.OrderOfPlay;
import org.barmap.plan.order.Performance;
import org.barmap.plan.page.Sides;
import org.barmap.plan.piece.Span;

/** Says what follows from each cut of a number. */
public final class CutChecks {
  private CutChecks() {}

  /**
   * Returns what follows from the cuts of a number.
   *
   * @param instruments the instrument at each piece; empty text where unknown
   * @param bows the bow at each piece, likewise
   * @param mutes the mute at each piece, likewise
   */
  public static List<PlanFinding> of(
      Performance performance,
      List<Span> spans,
      List<String> instruments,
      List<String> bows,
      List<String> mutes,
      Sides sides) {
    List<PlanFinding> findings = new ArrayList<>();
    OrderOfPlay order = performance.order();
    CutReport report = new CutReport(order, findings);
    CutJoin joins =
        new CutJoin(report, performance.keys(), new CutLanding(report, performance, bows, mutes));
    for (CutStretch cut : CutStretch.of(order.pieces(), spans)) {
      joins.join(cut, instruments, sides);
    }
    return findings;
  }
}
