package org.barmap.reckon;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Evidence;
import org.barmap.map.Evidence.Alternative;
import org.barmap.map.Finding;
import org.barmap.map.SecondReading;
import org.barmap.map.SecondReading.Measure;

/**
 * Uses a second reading of the same music as evidence: its bars are aligned to the map's entries,
 * and what it says of rests and numbers is weighed with its own trust.
 */
public final class SecondEvidence {

  /** How often it is right where it contradicts the page, see the report on the reckoning. */
  static final double TRUST = 0.5;

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
    List<Aligner.Taken> taken = SecondAlignment.of(bars, measures);
    int[] beyond = SecondAlignment.left(bars, measures, taken);
    List<Bar> out = new ArrayList<>();
    for (int i = 0; i < bars.size(); i++) {
      out.add(withEvidence(bars.get(i), measures, taken.get(i), beyond[i]));
    }
    BarMap settled = new Settler().settleAnew(map.withBars(out), fixed);
    List<Finding> findings = new ArrayList<>(settled.findings());
    SecondMarks.differing(bars, measures, taken).stream()
        .filter(f -> !fixed.answered().contains(f.bar().orElse("")))
        .forEach(findings::add);
    findings.sort(Comparator.comparingDouble(Finding::weight).reversed());
    return settled.withFindings(findings);
  }

  private Bar withEvidence(Bar bar, List<Measure> measures, Aligner.Taken taken, int beyond) {
    Evidence old = bar.evidence().orElse(new Evidence(List.of(), List.of(), 1));
    List<Alternative> counts = old.counts();
    if (bar.isRest() && taken.size() > 0 && (taken.size() > 1 || !counts.isEmpty())) {
      counts = mixed(counts, Integer.toString(taken.size()));
    }
    List<Alternative> numbers = old.numbers();
    if (taken.size() > 0 && SecondAlignment.isSaid(measures, taken.from())) {
      numbers = mixed(numbers, measures.get(taken.from()).number());
    }
    String called = taken.size() > 0 ? measures.get(taken.from()).number() : "";
    int read =
        old.counts().stream()
            .flatMap(a -> RestEvidence.numeral(a.text()).stream())
            .findFirst()
            .orElse(0);
    Evidence.Second second = new Evidence.Second(taken.size() + beyond, called, read);
    return bar.toBuilder().evidence(Optional.of(old.with(counts, numbers, second))).build();
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
    out.sort(Comparator.comparingDouble(Alternative::probability).reversed());
    return List.copyOf(out);
  }
}
