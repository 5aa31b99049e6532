package org.barmap.fit;

import static org.barmap.fit.Likelihood.PULL;
import static org.barmap.fit.Likelihood.climb;
import static org.barmap.fit.Likelihood.logistic;
import static org.barmap.fit.Likelihood.logit;
import static org.barmap.fit.Likelihood.share;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.barmap.fit.Observed.Gap;
import org.barmap.reckon.cells.Fill;
import org.barmap.reckon.cells.GapEvidence;
import org.barmap.reckon.cells.LineEvidence;
import org.barmap.reckon.cost.BeatCosts;
import org.barmap.reckon.cost.Costs;

/** Fits how a cell, and what stands beside a line, tell of missed and of invented barlines. */
final class CellFitting {

  /** The costs of a cell, in the order of their parameters. */
  private static final List<String> CELL =
      List.of(
          "widthBias",
          "perOctave",
          "perSquare",
          "besideSign",
          "besideOctave",
          "twoSigns",
          "markedCell",
          "perOctaveOnPage",
          "firstOfLine");

  /** The costs of what stands beside a line, likewise. */
  private static final List<String> AROUND =
      List.of("narrow", "narrowPower", "aroundBias", "joinedShare", "offMiddle", "offOctave");

  private final Observed seen;
  private final Map<String, Double> out;

  /** The costs of the beats in a cell, and of those beside a line, likewise. */
  private static final List<String> BEATS =
      List.of("widthShare", "one", "two", "three", "other", "otherOctave");

  private static final List<String> SIDES =
      List.of("aroundBias", "joinedShare", "sideOne", "sideOther");

  private final Map<String, Double> beats = new LinkedHashMap<>();
  private double[] cell = new double[CELL.size()];
  private double[] around = new double[AROUND.size()];
  private double inside = 1;

  /** Costs go to {@code out}. */
  CellFitting(Observed seen, Map<String, Double> out) {
    this.seen = seen;
    this.out = out;
  }

  /** How a cell tells of a missed line: all cells against those with a line taken away. */
  void gaps() {
    double evenly = seen.merged.size() / (double) seen.gaps.size();
    double[] x =
        climb(
            new double[CELL.size()],
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
    cell = put(CELL, x);
    beats();
    traces();
  }

  /** How the beats of a cell tell of missed lines, beside its width. */
  private void beats() {
    double evenly = seen.merged.size() / (double) seen.gaps.size();
    double[] x =
        climb(
            new double[] {0.5, 0, 0, 0, 0, 0},
            p -> {
              if (p[0] < 0 || p[0] > 1) {
                return Double.NEGATIVE_INFINITY;
              }
              double log = 0;
              for (int i = 1; i < p.length; i++) {
                log -= PULL * p[i] * p[i] / 16;
              }
              for (Gap g : seen.gaps) {
                log += g.missed() == 0 ? logistic(filled(g.cell(), p), false) * evenly : 0;
              }
              for (Gap g : seen.merged) {
                log += logistic(filled(g.cell(), p), true);
              }
              return log;
            });
    for (int i = 0; i < x.length; i++) {
      beats.put(BEATS.get(i), x[i]);
    }
    double twos = share(threes(seen.merged), seen.merged.size());
    double threes = share(threes(seen.mergedOfThree), seen.mergedOfThree.size());
    beats.put("third", Math.log(threes / twos));
  }

  private static long threes(List<Gap> gaps) {
    return gaps.stream().filter(g -> g.cell().fill().bars() == Fill.Bars.THREE).count();
  }

  /** Odds that a cell is two bars where its beats are known; others don't count here. */
  private double filled(GapEvidence g, double[] p) {
    return g.fill().known() ? costs(p).twoBars(g.fill(), told(g, cell)) : 0;
  }

  private static BeatCosts costs(double[] p) {
    return new BeatCosts(p[0], p[1], p[2], p[3], p[4], p[5], 0, 0, 0, 0, 0);
  }

  /** Odds that a cell is two bars, from all that is fitted so far. */
  private double twoBars(GapEvidence g) {
    double[] p = BEATS.stream().mapToDouble(beats::get).toArray();
    return costs(p).twoBars(g.fill(), told(g, cell));
  }

  /** What the beats tell, once all is fitted. */
  Map<String, Double> beatCosts() {
    return beats;
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
    List<Double> left = Traces.left();
    int apart = seen.merged.size() / left.size();
    double[] x =
        climb(
            new double[] {0, 1},
            p -> {
              double log = -PULL * (p[0] * p[0] / 8 + (p[1] - 1) * (p[1] - 1));
              for (Gap g : seen.gaps) {
                boolean none = g.missed() == 0 && g.cell().trace() > 0;
                double told = p[0] + p[1] * logit(g.cell().trace()) + twoBars(g.cell());
                log += none ? logistic(told, false) : 0;
              }
              for (int i = 0; i < left.size(); i++) {
                double told = twoBars(seen.merged.get(i * apart).cell());
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
  void around() {
    double evenly = seen.besideAnywhere.size() / (double) seen.besideTrue.size();
    long inTrue = seen.besideTrue.stream().filter(LineEvidence::inside).count();
    long inAnywhere = seen.besideAnywhere.stream().filter(LineEvidence::inside).count();
    inside = share(inTrue, seen.besideTrue.size()) / share(inAnywhere, seen.besideAnywhere.size());
    out.put("insideRest", inside);
    double[] x =
        climb(
            new double[] {0.7, 1, 0, 0, 0, 0},
            p -> {
              if (p[0] < 0.05 || p[1] < 0 || p[3] < 0) {
                return Double.NEGATIVE_INFINITY;
              }
              double log = -PULL * (p[4] * p[4] / 8 + p[5] * p[5] / 8);
              for (LineEvidence b : seen.besideTrue) {
                log += b.inside() ? 0 : logistic(byWidth(b, p), true) * evenly;
              }
              for (LineEvidence b : seen.besideAnywhere) {
                log += b.inside() ? 0 : logistic(byWidth(b, p), false);
              }
              return log;
            });
    around = put(AROUND, x);
    sides(evenly);
  }

  /** The same where the beats on both sides of a line are known. */
  private void sides(double evenly) {
    double[] x =
        climb(
            new double[] {0, 0.5, 0, 0},
            p -> {
              if (p[1] < 0) {
                return Double.NEGATIVE_INFINITY;
              }
              double log = -PULL * (p[0] * p[0] + p[2] * p[2] + p[3] * p[3]) / 8;
              for (LineEvidence b : seen.besideTrue) {
                log += !b.inside() && b.filled() ? logistic(byBeats(b, p), true) * evenly : 0;
              }
              for (LineEvidence b : seen.besideAnywhere) {
                log += !b.inside() && b.filled() ? logistic(byBeats(b, p), false) : 0;
              }
              return log;
            });
    for (int i = 0; i < SIDES.size(); i++) {
      beats.put(SIDES.get(i), x[i]);
    }
  }

  private double byWidth(LineEvidence b, double[] p) {
    return bounded(b, p, p[2] + p[3] * b.joined().map(g -> told(g, cell)).orElse(0.0));
  }

  private double byBeats(LineEvidence b, double[] p) {
    double joined = b.joined().map(this::twoBars).orElse(0.0);
    double log = p[0] + p[1] * joined + p[2] * b.ones() + p[3] * b.others();
    return bounded(b, around, log);
  }

  private static double bounded(LineEvidence b, double[] p, double told) {
    double log = told + b.off().map(o -> p[4] + p[5] * o).orElse(0.0);
    double bounded = Math.max(-Costs.MOST_AROUND, Math.min(Costs.MOST_AROUND, log));
    return Math.min(0, p[1] * Math.log(Math.max(0.02, b.beside()) / p[0])) + bounded;
  }

  /** Logarithm of the odds by what stands beside a line, its beats left out, as fitted. */
  double odds(LineEvidence beside) {
    return byWidth(beside, around) + (beside.inside() ? Math.log(inside) : 0);
  }

  private double[] put(List<String> names, double[] values) {
    for (int i = 0; i < values.length; i++) {
      out.put(names.get(i), values[i]);
    }
    return values;
  }
}
