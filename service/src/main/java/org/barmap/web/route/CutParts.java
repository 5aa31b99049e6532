package org.barmap.web.route;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.barmap.map.Bar;
import org.barmap.map.Meter;
import org.barmap.plan.NumberPlan;
import org.barmap.plan.Plan;

/** Which bar entries, and which parts of them, are not played any more with the changes. */
final class CutParts {

  /**
   * A stretch of an entry.
   *
   * @param from share of the entry before it, 0 to 1
   * @param to share of the entry up to its end
   */
  record CutShare(double from, double to) {}

  private record Beats(double start, double end, double middle) {}

  private final Map<String, BitSet> written = new HashMap<>();
  private final Map<String, BitSet> played = new HashMap<>();
  private final Map<String, Beats> beats = new HashMap<>();

  private CutParts() {}

  /** Compares a plan without changes with the plan that has them. */
  static CutParts of(Plan written, Plan changed) {
    CutParts parts = new CutParts();
    for (NumberPlan number : written.numbers()) {
      number.order().forEach(e -> add(parts.written, e));
    }
    for (NumberPlan number : changed.numbers()) {
      if (number.state() == NumberPlan.State.TACET) {
        number(written, number.label()).forEach(e -> add(parts.played, e)); // the others play it
      }
      for (NumberPlan.Entry e : number.order()) {
        add(parts.played, e);
        e.beatsCut()
            .filter(b -> e.inserted().isEmpty())
            .ifPresent(
                all -> {
                  double start = e.beatsCutStart().orElse(0.0);
                  double end = e.beatsCutEnd().orElse(0.0);
                  parts.beats.put(e.bar(), new Beats(start, end, all - start - end));
                });
      }
    }
    return parts;
  }

  private static List<NumberPlan.Entry> number(Plan plan, String label) {
    return plan.numbers().stream()
        .filter(n -> n.label().equals(label))
        .flatMap(n -> n.order().stream())
        .toList();
  }

  /** A whole entry is kept as its first bar with no end: how many bars it has is not known here. */
  private static void add(Map<String, BitSet> bars, NumberPlan.Entry entry) {
    if (entry.inserted().isPresent()) {
      return;
    }
    BitSet set = bars.computeIfAbsent(entry.bar(), id -> new BitSet());
    int from = entry.from().orElse(1) - 1;
    set.set(from, entry.bars().map(n -> from + n).orElse(MOST_BARS));
  }

  /** An entry stands for no more bars than this, see the schema of the map. */
  private static final int MOST_BARS = 10_000;

  private BitSet gone(Bar bar) {
    BitSet gone = new BitSet();
    gone.or(written.getOrDefault(bar.id(), new BitSet()));
    gone.andNot(played.getOrDefault(bar.id(), new BitSet()));
    gone.clear(bar.count(), MOST_BARS);
    return gone;
  }

  /** Tells whether nothing of an entry is played any more. */
  boolean whole(Bar bar) {
    return gone(bar).cardinality() == bar.count();
  }

  /** Returns the parts of an entry that are out while others are played, from left to right. */
  List<CutShare> parts(Bar bar) {
    BitSet gone = gone(bar);
    if (gone.cardinality() == bar.count()) {
      return List.of();
    }
    List<CutShare> parts = new ArrayList<>();
    for (int from = gone.nextSetBit(0); from >= 0; ) {
      int to = gone.nextClearBit(from);
      parts.add(new CutShare((double) from / bar.count(), (double) to / bar.count()));
      from = gone.nextSetBit(to);
    }
    Beats cut = beats.get(bar.id());
    int inBar = bar.meter().map(Meter::beats).orElse(0);
    if (cut != null && bar.count() == 1 && inBar > 0) {
      if (cut.start > 0) {
        parts.add(new CutShare(0, cut.start / inBar));
      }
      if (cut.middle > 0) {
        double half = cut.middle / inBar / 2;
        parts.add(new CutShare(0.5 - half, 0.5 + half));
      }
      if (cut.end > 0) {
        parts.add(new CutShare(1 - cut.end / inBar, 1));
      }
    }
    return parts;
  }
}
