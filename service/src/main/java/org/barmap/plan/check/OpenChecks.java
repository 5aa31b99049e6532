package org.barmap.plan.check;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.barmap.map.Severity;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.order.OpenRun;
import org.barmap.plan.order.OpenStretch;
import org.barmap.plan.order.OrderOfPlay;
import org.barmap.plan.page.Sides;
import org.barmap.plan.piece.Piece;

/** Says where a vamp or a safety reaches over a page turn. */
public final class OpenChecks {
  private OpenChecks() {}

  /** Returns a finding for each open stretch that doesn't lie in one opening and has notes. */
  public static List<PlanFinding> of(OrderOfPlay order, Sides sides) {
    List<PlanFinding> findings = new ArrayList<>();
    Set<OpenStretch> rested =
        OpenRun.of(order).stream()
            .filter(OpenRun::rest)
            .map(OpenRun::open)
            .collect(Collectors.toSet());
    for (OpenStretch open : order.open()) {
      if (rested.contains(open)) {
        continue; // who rests throughout turns once
      }
      int from = page(order, open.first());
      int to = page(order, open.last());
      if (from > 0 && to > 0 && sides.turned(from, to)) {
        findings.add(
            new PlanFinding(
                Severity.ERROR,
                Optional.of(open.first()),
                "open-turn",
                "The "
                    + open.kind().word()
                    + " reaches over the turn from page "
                    + from
                    + " to page "
                    + to
                    + ": you turn back for every pass. Write it out on one page.",
                open.change(),
                List.of(),
                Optional.empty()));
      }
    }
    return findings;
  }

  private static int page(OrderOfPlay order, String id) {
    for (Piece piece : order.pieces()) {
      if (piece.bar().id().equals(id)) {
        return piece.bar().page();
      }
    }
    return 0;
  }
}
