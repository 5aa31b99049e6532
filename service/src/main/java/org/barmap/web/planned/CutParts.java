package org.barmap.web.planned;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
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

  private static final BitSet NOTHING = new BitSet(0);

  private record Beats(double start, double end, double middle) {}

  /**
   * What of an entry is out.
   *
   * @param whole nothing of it is played any more
   * @param parts what is out while others are played, from left to right
   */
  record Out(boolean whole, List<CutShare> parts) {}

  private final Map<String, Integer> counts = new HashMap<>();
  private final Map<String, BitSet> written = new HashMap<>();
  private final Map<String, BitSet> played = new HashMap<>();
  private final Map<String, Beats> beats = new HashMap<>();

  private CutParts(BarMap map) {
    map.bars().forEach(bar -> counts.put(bar.id(), bar.count()));
  }

  /** Compares a plan of a map without changes with the plan that has them. */
  static CutParts of(BarMap map, Plan written, Plan changed) {
    CutParts parts = new CutParts(map);
    for (NumberPlan number : written.numbers()) {
      number.order().forEach(e -> parts.add(parts.written, e));
    }
    for (NumberPlan number : changed.numbers()) {
      if (number.state() == NumberPlan.State.TACET) {
        // the others play it
        number(written, number.label()).forEach(e -> parts.add(parts.played, e));
      }
      for (NumberPlan.Entry e : number.order()) {
        parts.add(parts.played, e);
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

  private void add(Map<String, BitSet> bars, NumberPlan.Entry entry) {
    int count = counts.getOrDefault(entry.bar(), 0);
    if (entry.inserted().isPresent() || count == 0) {
      return;
    }
    int from = Math.min(count, entry.from().orElse(1) - 1);
    int to = entry.bars().map(n -> Math.min(count, from + n)).orElse(count);
    bars.computeIfAbsent(entry.bar(), id -> new BitSet(count)).set(from, to);
  }

  /** Returns what of an entry is out. */
  Out out(Bar bar) {
    BitSet gone = new BitSet(bar.count());
    gone.or(written.getOrDefault(bar.id(), gone));
    gone.andNot(played.getOrDefault(bar.id(), NOTHING));
    if (gone.cardinality() == bar.count()) {
      return new Out(true, List.of());
    }
    List<CutShare> parts = new ArrayList<>();
    for (int from = gone.nextSetBit(0); from >= 0; ) {
      int to = gone.nextClearBit(from);
      parts.add(new CutShare((double) from / bar.count(), (double) to / bar.count()));
      from = gone.nextSetBit(to);
    }
    beats(bar, parts);
    return new Out(false, parts);
  }

  private void beats(Bar bar, List<CutShare> parts) {
    Beats cut = beats.get(bar.id());
    int inBar = bar.meter().map(Meter::beats).orElse(0);
    if (cut == null || bar.count() != 1 || inBar == 0) {
      return;
    }
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
}
