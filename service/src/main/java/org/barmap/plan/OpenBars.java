package org.barmap.plan;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.barmap.plan.order.OpenStretch;
import org.barmap.plan.order.Performance;
import org.barmap.plan.piece.Piece;

/** Says where a number waits for the director: its vamps and safeties, its holds. */
final class OpenBars {
  private OpenBars() {}

  static List<RunSheet.Open> vamps(Performance performance) {
    List<RunSheet.Open> all = new ArrayList<>();
    for (OpenStretch open : performance.order().open()) {
      all.add(
          new RunSheet.Open(
              open.kind().word(), bars(performance, open), Optional.empty(), open.leave()));
    }
    return all;
  }

  /** Returns what comes on top of what is counted: "vamp 10-11", "hold 4". */
  static List<String> plus(Performance performance) {
    Set<String> plus = new LinkedHashSet<>();
    for (OpenStretch open : performance.order().open()) {
      plus.add(open.kind().word() + " " + bars(performance, open));
    }
    plus.addAll(performance.played().plus());
    return List.copyOf(plus);
  }

  private static String bars(Performance performance, OpenStretch open) {
    String first = "";
    String last = "";
    for (Piece piece : performance.order().pieces()) {
      boolean written = piece.inserted().isEmpty();
      if (first.isEmpty() && written && piece.bar().id().equals(open.first())) {
        first = Ahead.name(performance, piece);
      }
      if (written && piece.bar().id().equals(open.last())) {
        int slot = piece.slot() + piece.count() - 1;
        last = performance.number().nameAt(slot);
      }
    }
    return first.equals(last) ? first : first + "-" + last;
  }
}
