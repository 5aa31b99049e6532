package org.barmap.fit;

import static org.barmap.fit.Likelihood.PULL;
import static org.barmap.fit.Likelihood.climb;
import static org.barmap.fit.Likelihood.logistic;
import static org.barmap.fit.Likelihood.logit;
import static org.barmap.fit.Likelihood.share;

import java.lang.reflect.RecordComponent;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.barmap.fit.Observed.Numeral;
import org.barmap.fit.Observed.Rest;
import org.barmap.fit.Observed.SeenLine;
import org.barmap.fit.Observed.Start;
import org.barmap.reckon.cells.Marks;
import org.barmap.reckon.cost.BeatCosts;
import org.barmap.reckon.cost.Costs;
import org.barmap.sign.kind.Reading;

/**
 * Fits the costs to what was observed: shares of events with half an event added on either side,
 * and where a probability bends with the evidence, the parameters of greatest likelihood with a
 * weak pull towards "no effect", found by going up along one parameter after the other.
 */
final class Fitting {

  private final Observed seen;
  private final Map<String, Double> out = new LinkedHashMap<>();

  private final CellFitting cells;

  private Fitting(Observed seen) {
    this.seen = seen;
    this.cells = new CellFitting(seen, out);
  }

  /**
   * Returns the fitted costs by name, grouped as {@link Costs} are; those that single pages can't
   * tell are taken over.
   */
  static Map<String, Object> fit(Observed seen) {
    Fitting fitting = new Fitting(seen);
    fitting.cells.gaps();
    fitting.lines();
    fitting.rests();
    fitting.numerals();
    fitting.strength();
    fitting.starts();
    fitting.out.put("restartElsewhere", Costs.DEFAULT.restarts().restartElsewhere());
    fitting.out.put("missingPages", Costs.DEFAULT.restarts().missingPages());
    fitting.out.put("mostMissed", Costs.DEFAULT.gaps().mostMissed());
    fitting.out.put("doubt", Costs.DEFAULT.doubt());
    return grouped(Costs.class, rounded(fitting.out), rounded(fitting.cells.beatCosts()));
  }

  /** Values by name, put where a record of costs has them; each has to be there. */
  private static Map<String, Object> grouped(
      Class<?> costs, Map<String, Double> values, Map<String, Double> beats) {
    Map<String, Object> out = new LinkedHashMap<>();
    for (RecordComponent c : costs.getRecordComponents()) {
      Class<?> type = c.getType();
      if (type == BeatCosts.class) {
        out.put(c.getName(), beats);
      } else if (type.isRecord()) {
        out.put(c.getName(), grouped(type, values, beats));
      } else {
        out.put(c.getName(), Objects.requireNonNull(values.get(c.getName()), c.getName()));
      }
    }
    return out;
  }

  private static Map<String, Double> rounded(Map<String, Double> values) {
    Map<String, Double> out = new LinkedHashMap<>();
    values.forEach((k, v) -> out.put(k, Double.valueOf("%.4g".formatted(v))));
    return out;
  }

  private void lines() {
    long sure = seen.lines.stream().filter(l -> l.ink() && l.read() > 0.9).count();
    long wrong = seen.lines.stream().filter(l -> l.ink() && l.read() > 0.9 && !l.right()).count();
    double floor = share(wrong, sure);
    out.put("floor", floor);
    cells.around();
    double[] x =
        climb(
            new double[] {0, 0},
            p -> {
              double log = -PULL * (p[0] * p[0] / 4 + p[1] * p[1] * 2);
              for (SeenLine l : seen.lines) {
                log += l.ink() ? line(l, p, floor) : 0;
              }
              return log;
            });
    out.put("lineBias", x[0]);
    out.put("lineSlope", Math.exp(x[1]));
    List<SeenLine> bare = seen.lines.stream().filter(l -> !l.ink()).toList();
    out.put("betweenRests", share(bare.stream().filter(SeenLine::right).count(), bare.size()));
    long open = seen.openEnds.stream().filter(b -> b).count();
    long ends = seen.opening.stream().filter(b -> b).count();
    out.put("openingRepeat", share(ends, seen.opening.size()));
    out.put("openEnd", share(open, seen.openEnds.size()));
  }

  private double line(SeenLine l, double[] p, double floor) {
    double read = Math.max(floor, Math.min(1 - floor, l.read()));
    double odds = p[0] + Math.exp(p[1]) * Math.log(read / (1 - read));
    odds += cells.odds(l.around());
    double q = Math.max(floor / 2, Math.min(1 - floor / 2, 1 / (1 + Math.exp(-odds))));
    return Math.log(l.right() ? q : 1 - q);
  }

  private void rests() {
    double[] x =
        climb(
            new double[] {2, 0, 0, 0},
            p -> {
              double log = -PULL * (p[1] * p[1] / 8 + p[2] * p[2] / 8 + p[3] * p[3] * 2);
              for (Rest r : seen.rests) {
                double bias = !r.seen() ? p[2] : r.numbered() ? p[0] : p[1];
                log += logistic(bias + Math.exp(p[3]) * logit(r.read()), r.several());
              }
              return log;
            });
    out.put("restNumbered", x[0]);
    out.put("restBare", x[1]);
    out.put("numeralAlone", x[2]);
    out.put("restSlope", Math.exp(x[3]));
  }

  private void numerals() {
    double[] x =
        climb(
            new double[] {2, 0},
            p -> {
              double log = -PULL * p[1] * p[1] * 2;
              for (Numeral a : seen.anchors) {
                // a number that is nothing like what was read is no bar number
                boolean there = a.listed() || a.oneFigureOff() || a.figureMoreOrLess();
                log += logistic(p[0] + Math.exp(p[1]) * logit(a.there()), there);
              }
              return log;
            });
    out.put("numberBias", x[0]);
    out.put("numberSlope", Math.exp(x[1]));
    List<Numeral> numbers =
        seen.anchors.stream()
            .filter(a -> a.listed() || a.oneFigureOff() || a.figureMoreOrLess())
            .toList();
    out.put("misreadCount", misread(seen.counts));
    out.put("misreadNumber", misread(numbers));
    List<Numeral> both = new ArrayList<>(seen.counts);
    both.addAll(numbers);
    double[] slope =
        climb(
            new double[] {0},
            p -> {
              double log = -PULL * p[0] * p[0] * 2;
              for (Numeral n : both) {
                log += n.listed() ? readings(n, Math.exp(p[0])) : 0;
              }
              return log;
            });
    out.put("numeralSlope", Math.exp(slope[0]));
    List<Numeral> lost = both.stream().filter(n -> !n.listed() && !n.readings().isEmpty()).toList();
    long one = lost.stream().filter(Numeral::oneFigureOff).count();
    long more = lost.stream().filter(n -> !n.oneFigureOff() && n.figureMoreOrLess()).count();
    out.put("oneFigure", (one + 0.5) / (lost.size() + 1.5));
    out.put("figureMore", (more + 0.5) / (lost.size() + 1.5));
  }

  /**
   * How far pages differ in how often numerals are misread: the observations that the corpus's
   * share counts as when a book's own is estimated (beta-binomial over pages).
   */
  private void strength() {
    double mean =
        share(
            seen.misreadByPage.stream().mapToInt(p -> p[0]).sum(),
            seen.misreadByPage.stream().mapToInt(p -> p[1]).sum());
    double[] x =
        climb(
            new double[] {4},
            p -> {
              double a = Math.exp(p[0]) * mean;
              double b = Math.exp(p[0]) * (1 - mean);
              double log = 0;
              for (int[] page : seen.misreadByPage) {
                log += rising(a, page[0]) + rising(b, page[1] - page[0]) - rising(a + b, page[1]);
              }
              return p[0] > 12 ? Double.NEGATIVE_INFINITY : log;
            });
    out.put("strength", Math.exp(x[0]));
  }

  private static double rising(double from, int n) {
    double log = 0;
    for (int i = 0; i < n; i++) {
      log += Math.log(from + i);
    }
    return log;
  }

  private static double misread(List<Numeral> numerals) {
    return share(numerals.stream().filter(n -> !n.listed()).count(), numerals.size());
  }

  private static double readings(Numeral n, double slope) {
    double own = 0;
    double all = 0;
    for (Reading r : n.readings()) {
      double w = Math.pow(Math.max(1e-9, r.probability()), slope);
      all += w;
      own += Marks.number(r.text()) == n.truth() ? w : 0;
    }
    return Math.log(Math.max(1e-12, own / all));
  }

  private void starts() {
    out.put("restartAtHeading", again(s -> s.heading()));
    out.put("restartAfterFinal", again(s -> s.afterFinal() && !s.heading()));
    List<Start> again = seen.starts.stream().filter(Start::again).toList();
    out.put("pickup", share(again.stream().filter(s -> s.number() == 0).count(), again.size()));
    out.put("missedSystem", share(seen.systemsMissed, seen.systems));
  }

  private double again(java.util.function.Predicate<Start> where) {
    List<Start> of = seen.starts.stream().filter(where).toList();
    return share(of.stream().filter(Start::again).count(), of.size());
  }
}
