package org.barmap.reckon;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.ToDoubleFunction;
import org.barmap.reckon.Observed.Gap;
import org.barmap.reckon.Observed.Line;
import org.barmap.reckon.Observed.Numeral;
import org.barmap.reckon.Observed.Rest;
import org.barmap.reckon.Observed.Start;
import org.barmap.sign.Reading;

/**
 * Fits the costs to what was observed: shares of events with half an event added on either side,
 * and where a probability bends with the evidence, the parameters of greatest likelihood with a
 * weak pull towards "no effect", found by going up along one parameter after the other.
 */
final class Fitting {

  /** Numbers the pull towards no effect counts as; in nats for a parameter off by one. */
  private static final double PULL = 0.5;

  private final Observed seen;
  private final Map<String, Double> out = new LinkedHashMap<>();

  private Fitting(Observed seen) {
    this.seen = seen;
  }

  /** Returns the fitted costs by name; those that single pages can't tell are taken over. */
  static Map<String, Double> fit(Observed seen) {
    Fitting fitting = new Fitting(seen);
    fitting.gaps();
    fitting.lines();
    fitting.rests();
    fitting.numerals();
    fitting.strength();
    fitting.starts();
    fitting.out.put("restartElsewhere", Costs.DEFAULT.restartElsewhere());
    fitting.out.put("missingPages", Costs.DEFAULT.missingPages());
    fitting.out.put("mostMissed", Costs.DEFAULT.mostMissed());
    fitting.out.put("doubt", Costs.DEFAULT.doubt());
    return fitting.out;
  }

  /** A share of events, half an event added on either side. */
  static double share(long events, long of) {
    return (events + 0.5) / (of + 1);
  }

  /** How a cell tells of a missed line: all cells against those with a line taken away. */
  private void gaps() {
    double evenly = seen.merged.size() / (double) seen.gaps.size();
    double[] x =
        climb(
            new double[9],
            p -> {
              double log = -PULL * (p[1] * p[1] / 8 + p[2] * p[2] / 2 + p[4] * p[4] / 8);
              log -= PULL * (p[3] * p[3] / 8 + p[5] * p[5] / 8 + p[6] * p[6] / 8);
              log -= PULL * (p[7] * p[7] / 8 + p[8] * p[8] / 2);
              for (Gap g : seen.gaps) {
                log += g.missed() == 0 ? logistic(told(g.cell(), p), false) * evenly : 0;
              }
              for (Gap g : seen.merged) {
                log += logistic(told(g.cell(), p), true);
              }
              return log;
            });
    long missed = seen.gaps.stream().filter(g -> g.missed() > 0).count();
    out.put("missedLine", share(missed, seen.gaps.size()));
    out.put("widthBias", x[0]);
    out.put("perOctave", x[1]);
    out.put("perSquare", x[2]);
    out.put("besideSign", x[3]);
    out.put("besideOctave", x[4]);
    out.put("twoSigns", x[5]);
    out.put("markedCell", x[6]);
    out.put("perOctaveOnPage", x[7]);
    out.put("firstOfLine", x[8]);
    traces();
  }

  private static double told(GapEvidence g, double[] p) {
    double o = g.octaves();
    double log =
        switch (g.holds()) {
          case MUSIC -> p[0] + p[1] * o + p[2] * o * o + p[7] * g.onPage() + (g.first() ? p[8] : 0);
          case SIGN -> p[3] + p[4] * o;
          case SIGNS -> p[5];
        };
    return log + (g.marked() ? p[6] : 0);
  }

  /**
   * How a faint line tells of a missed one, beside what the cell's width tells: those in cells of
   * one bar against missed barlines, each in the cell of some true line taken away.
   */
  private void traces() {
    double[] gaps = gapsFitted();
    List<Double> left = Traces.left();
    int apart = seen.merged.size() / left.size();
    double[] x =
        climb(
            new double[] {0, 1},
            p -> {
              double log = -PULL * (p[0] * p[0] / 8 + (p[1] - 1) * (p[1] - 1));
              for (Gap g : seen.gaps) {
                boolean none = g.missed() == 0 && g.cell().trace() > 0;
                double told = p[0] + p[1] * logit(g.cell().trace()) + told(g.cell(), gaps);
                log += none ? logistic(told, false) : 0;
              }
              for (int i = 0; i < left.size(); i++) {
                double told = told(seen.merged.get(i * apart).cell(), gaps);
                log += logistic(p[0] + p[1] * logit(left.get(i)) + told, true);
              }
              return log;
            });
    // from the odds among the traces to what one of them adds to the odds of a cell
    double of = seen.gaps.size() * Traces.share() / left.size();
    out.put("traceBias", x[0] + Math.log(of));
    out.put("traceSlope", x[1]);
  }

  /** How what stands beside a line tells that it is none: true lines against lines anywhere. */
  private void around() {
    double evenly = seen.besideAnywhere.size() / (double) seen.besideTrue.size();
    long inTrue = seen.besideTrue.stream().filter(LineEvidence::inside).count();
    long inAnywhere = seen.besideAnywhere.stream().filter(LineEvidence::inside).count();
    double inside = share(inTrue, seen.besideTrue.size());
    out.put("insideRest", inside / share(inAnywhere, seen.besideAnywhere.size()));
    double[] x =
        climb(
            new double[] {0.7, 1, 0, 0, 0, 0},
            p -> {
              if (p[0] < 0.05 || p[1] < 0 || p[3] < 0) {
                return Double.NEGATIVE_INFINITY;
              }
              double log = -PULL * (p[4] * p[4] / 8 + p[5] * p[5] / 8);
              for (LineEvidence b : seen.besideTrue) {
                log += b.inside() ? 0 : logistic(told(b, p), true) * evenly;
              }
              for (LineEvidence b : seen.besideAnywhere) {
                log += b.inside() ? 0 : logistic(told(b, p), false);
              }
              return log;
            });
    out.put("narrow", x[0]);
    out.put("narrowPower", x[1]);
    out.put("aroundBias", x[2]);
    out.put("joinedShare", x[3]);
    out.put("offMiddle", x[4]);
    out.put("offOctave", x[5]);
  }

  /** What is fitted before: how a cell tells of a missed line. */
  private double[] gapsFitted() {
    return List.of(
            "widthBias",
            "perOctave",
            "perSquare",
            "besideSign",
            "besideOctave",
            "twoSigns",
            "markedCell",
            "perOctaveOnPage",
            "firstOfLine")
        .stream()
        .mapToDouble(n -> out.getOrDefault(n, 0.0))
        .toArray();
  }

  /** Logarithm of the odds by what stands beside a line. */
  private double told(LineEvidence b, double[] p) {
    double[] gaps = gapsFitted();
    double log = p[2] + b.off().map(o -> p[4] + p[5] * o).orElse(0.0);
    log += p[3] * b.joined().map(g -> told(g, gaps)).orElse(0.0);
    double bounded = Math.max(-Costs.MOST_AROUND, Math.min(Costs.MOST_AROUND, log));
    return Math.min(0, p[1] * Math.log(Math.max(0.02, b.beside()) / p[0])) + bounded;
  }

  private void lines() {
    long sure = seen.lines.stream().filter(l -> l.ink() && l.read() > 0.9).count();
    long wrong = seen.lines.stream().filter(l -> l.ink() && l.read() > 0.9 && !l.right()).count();
    double floor = share(wrong, sure);
    out.put("floor", floor);
    around();
    double[] x =
        climb(
            new double[] {0, 0},
            p -> {
              double log = -PULL * (p[0] * p[0] / 4 + p[1] * p[1] * 2);
              for (Line l : seen.lines) {
                log += l.ink() ? line(l, p, floor) : 0;
              }
              return log;
            });
    out.put("lineBias", x[0]);
    out.put("lineSlope", Math.exp(x[1]));
    List<Line> bare = seen.lines.stream().filter(l -> !l.ink()).toList();
    out.put("betweenRests", share(bare.stream().filter(Line::right).count(), bare.size()));
    long open = seen.openEnds.stream().filter(b -> b).count();
    long ends = seen.opening.stream().filter(b -> b).count();
    out.put("openingRepeat", share(ends, seen.opening.size()));
    out.put("openEnd", share(open, seen.openEnds.size()));
  }

  private double line(Line l, double[] p, double floor) {
    double read = Math.max(floor, Math.min(1 - floor, l.read()));
    double odds = p[0] + Math.exp(p[1]) * Math.log(read / (1 - read));
    odds += told(l.around(), aroundFitted());
    odds += l.around().inside() ? Math.log(out.getOrDefault("insideRest", 1.0)) : 0;
    double q = Math.max(floor / 2, Math.min(1 - floor / 2, 1 / (1 + Math.exp(-odds))));
    return Math.log(l.right() ? q : 1 - q);
  }

  private double[] aroundFitted() {
    return List.of("narrow", "narrowPower", "aroundBias", "joinedShare", "offMiddle", "offOctave")
        .stream()
        .mapToDouble(n -> out.getOrDefault(n, 0.0))
        .toArray();
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

  private static double logit(double p) {
    double inside = Math.max(0.01, Math.min(0.99, p));
    return Math.log(inside / (1 - inside));
  }

  private static double logistic(double odds, boolean right) {
    double p = Math.max(1e-6, Math.min(1 - 1e-6, 1 / (1 + Math.exp(-odds))));
    return Math.log(right ? p : 1 - p);
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

  /** Goes up along one parameter after the other, in steps that shrink. */
  private static double[] climb(double[] start, ToDoubleFunction<double[]> height) {
    double[] x = start.clone();
    double best = height.applyAsDouble(x);
    for (double step = 1; step > 0.01; step /= 2) {
      boolean higher = true;
      for (int round = 0; higher && round < 60; round++) {
        higher = false;
        for (int i = 0; i < x.length; i++) {
          for (double d : new double[] {-step, step}) {
            double[] next = Arrays.copyOf(x, x.length);
            next[i] += d;
            double h = height.applyAsDouble(next);
            if (h > best + 1e-9) {
              best = h;
              x = next;
              higher = true;
            }
          }
        }
      }
    }
    return x;
  }
}
