package org.barmap.reckon;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Evidence;
import org.barmap.map.Evidence.Alternative;
import org.barmap.map.RehearsalMark;
import org.barmap.map.SecondReading;
import org.barmap.map.SecondReading.Measure;

/**
 * Uses a second reading of the same music as evidence: its bars are aligned to the map's entries,
 * and what it says of rests and numbers is weighed with its own trust.
 */
public final class SecondEvidence {

  /** Cost of an entry and a bar that don't belong together: one has no partner. */
  private static final double NO_PARTNER = 3;

  /** Cost of a rest whose numeral was misread: rests are misread more often than barlines. */
  private static final double MISREAD_COUNT = 2.5;

  /** Cost of a rest against a bar of music; cue notes and doublings make them differ at times. */
  private static final double WRONG_CONTENT = 0.7;

  /** How often it is right where it contradicts the page, see the report on the reckoning. */
  static final double TRUST = 0.5;

  private static final double WRONG_MARK = 4;
  private static final double WRONG_METER = 2;
  private static final double SAME_MARK = -2;
  private static final double SAME_REST = -1;
  private static final double SAME_NUMBER = -1.5;

  private final double trust;

  /**
   * Prepares a second reading.
   *
   * @param trust 0 to 1: the probability that it is right where it contradicts the page
   */
  public SecondEvidence(double trust) {
    this.trust = Math.max(0.01, Math.min(0.99, trust));
  }

  /** A second reading with the trust that was measured. */
  public static SecondEvidence trusted() {
    return new SecondEvidence(TRUST);
  }

  /**
   * Adds what the second reading says to the map's evidence and settles the map with it.
   *
   * @param map as read or corrected
   * @param part the same chair's part in the second reading
   * @param fixed what people set; never changed
   */
  public BarMap settle(BarMap map, SecondReading.Part part, Fixed fixed) {
    List<Measure> measures = part.measures();
    List<Bar> bars = map.bars();
    boolean marked = measures.stream().anyMatch(m -> m.rehearsal().isPresent());
    List<Aligner.Taken> taken =
        Aligner.align(
            bars.size(),
            measures.size(),
            i -> bars.get(i).isRest() ? 3 * bars.get(i).count() + 20 : 2,
            NO_PARTNER,
            (i, from, to) -> cost(bars.get(i), measures, from, to, marked));
    List<Bar> out = new ArrayList<>();
    for (int i = 0; i < bars.size(); i++) {
      out.add(withEvidence(bars.get(i), measures, taken.get(i)));
    }
    return new Settler().settleAnew(map.withBars(out), fixed);
  }

  private static double cost(Bar bar, List<Measure> measures, int from, int to, boolean marked) {
    int n = to - from;
    if (n == 0) {
      return NO_PARTNER;
    }
    double cost = length(bar, n);
    Measure first = measures.get(from);
    Optional<String> mark = bar.rehearsal().map(RehearsalMark::text);
    if (mark.isPresent() && first.rehearsal().isPresent()) {
      cost += mark.equals(first.rehearsal()) ? SAME_MARK : WRONG_MARK;
    } else if (marked && (mark.isPresent() || first.rehearsal().isPresent())) {
      cost += WRONG_MARK / 2;
    }
    cost += first.multiRest() > 1 && first.multiRest() == n ? SAME_REST : 0;
    List<Alternative> printed = bar.evidence().map(Evidence::numbers).orElse(List.of());
    if (!printed.isEmpty() && printed.get(0).text().equals(first.number())) {
      cost += SAME_NUMBER * printed.get(0).probability();
    }
    if (bar.meter().isPresent() && first.meter().isPresent()) {
      cost += bar.meter().get().sameAs(first.meter().get()) ? 0 : WRONG_METER;
    }
    for (int j = from; j < to; j++) {
      boolean inside = j > from && measures.get(j).rehearsal().isPresent();
      cost += inside ? WRONG_MARK : 0;
      cost += bar.isRest() == measures.get(j).rest() ? 0 : WRONG_CONTENT;
    }
    return cost;
  }

  /**
   * How ill a length suits what the page shows: its numeral's own readings, not what was settled.
   */
  private static double length(Bar bar, int n) {
    List<Alternative> counts = bar.evidence().map(Evidence::counts).orElse(List.of());
    if (counts.isEmpty()) {
      return n == bar.count() ? 0 : bar.isRest() ? MISREAD_COUNT : NO_PARTNER;
    }
    for (Alternative a : counts) {
      if (a.text().equals(Integer.toString(n))) {
        return -Math.log(Math.max(0.05, a.probability()));
      }
    }
    boolean oneOff =
        Marks.oneFigureOff(counts.get(0).text().replaceAll("\\D", ""), 1).containsKey(n);
    return MISREAD_COUNT + (oneOff ? 0.5 : 1.5);
  }

  private Bar withEvidence(Bar bar, List<Measure> measures, Aligner.Taken taken) {
    Evidence old = bar.evidence().orElse(new Evidence(List.of(), List.of(), 1));
    List<Alternative> counts = old.counts();
    if (bar.isRest() && taken.size() > 0 && (taken.size() > 1 || !counts.isEmpty())) {
      counts = mixed(counts, Integer.toString(taken.size()));
    }
    List<Alternative> numbers = old.numbers();
    if (taken.size() > 0 && isSaid(measures, taken.from())) {
      numbers = mixed(numbers, measures.get(taken.from()).number());
    }
    String called = taken.size() > 0 ? measures.get(taken.from()).number() : "";
    Evidence.Second second = new Evidence.Second(taken.size(), called);
    return bar.toBuilder().evidence(Optional.of(old.with(counts, numbers, second))).build();
  }

  /**
   * Tells whether a bar's number says more than that the source counted on: where it begins or
   * jumps. A source that lost a bar has every number after it wrong.
   */
  private static boolean isSaid(List<Measure> measures, int i) {
    String now = measures.get(i).number();
    if (!now.matches("\\d{1,4}")) {
      return false;
    }
    String before = i == 0 ? "" : measures.get(i - 1).number();
    return !before.matches("\\d{1,4}") || Integer.parseInt(now) != Integer.parseInt(before) + 1;
  }

  /**
   * Mixes two independent readers' words: what both say becomes nearly sure, what they contradict
   * in is shared out by their trust.
   */
  private List<Alternative> mixed(List<Alternative> page, String second) {
    double others = (1 - trust) / Costs.NUMBERS;
    List<Alternative> out = new ArrayList<>();
    boolean listed = false;
    double total = 0;
    for (Alternative a : page) {
      boolean same = a.text().equals(second);
      listed |= same;
      total += a.probability() * (same ? trust : others);
    }
    double unlisted = Math.max(0.02, 1 - page.stream().mapToDouble(Alternative::probability).sum());
    double added = listed ? 0 : trust * unlisted / 10;
    total += added;
    for (Alternative a : page) {
      double p = a.probability() * (a.text().equals(second) ? trust : others) / total;
      out.add(new Alternative(a.text(), Math.round(p * 1000) / 1000.0));
    }
    if (!listed) {
      out.add(new Alternative(second, Math.round(added / total * 1000) / 1000.0));
    }
    out.sort(java.util.Comparator.comparingDouble(Alternative::probability).reversed());
    return List.copyOf(out);
  }
}
