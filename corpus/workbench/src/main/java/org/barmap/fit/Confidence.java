package org.barmap.fit;

import static org.barmap.fit.Likelihood.PULL;
import static org.barmap.fit.Likelihood.climb;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.barmap.fit.CorpusReadings.Labelled;
import org.barmap.fit.Observed.Said;
import org.barmap.map.BarMap;
import org.barmap.map.Book;
import org.barmap.map.json.BarMapJson;
import org.barmap.reckon.Reckoner;
import org.barmap.reckon.cost.Calibration;
import org.barmap.reckon.cost.Costs;
import org.barmap.score.Comparison;
import org.barmap.score.Tally.Judged;

/** Fits how sure the product of an entry's probabilities really is, and measures it. */
final class Confidence {

  /** Entries in one group, at least. */
  private static final int GROUP = 60;

  private Confidence() {}

  private static List<Judged> judged(List<Labelled> pages, Costs costs, Calibration calibration) {
    List<Judged> out = new ArrayList<>();
    for (Labelled l : pages) {
      BarMap map = new Reckoner(costs, calibration).reckon(new Book("", ""), List.of(l.read()));
      out.addAll(Comparison.of(l.truth(), BarMapJson.mapper().valueToTree(map)).tally().judged());
    }
    return out;
  }

  /**
   * Fits the signs, then groups of entries by their product, each with its share of right ones
   * (half an event added on either side), made to rise by joining neighbours that don't.
   */
  static Calibration fit(List<Labelled> pages, Observed seen, Costs costs) {
    Calibration.Signs signs = new Calibration.Signs(fit(seen.marks), fit(seen.meters));
    Calibration asItIs = new Calibration(signs, Calibration.AS_IT_IS);
    return new Calibration(signs, knots(new ArrayList<>(judged(pages, costs, asItIs))));
  }

  /** Bias and slope of greatest likelihood, with a weak pull towards a slope of 1. */
  private static Calibration.Sure fit(List<Said> signs) {
    double[] x =
        climb(
            new double[] {2, 0},
            p -> {
              Calibration.Sure sure = new Calibration.Sure(p[0], Math.exp(p[1]));
              double log = -PULL * p[1] * p[1] * 2;
              for (Said s : signs) {
                double q = Math.max(1e-6, Math.min(1 - 1e-6, sure.of(s.sure())));
                log += Math.log(s.right() ? q : 1 - q);
              }
              return log;
            });
    return new Calibration.Sure(round(x[0]), round(Math.exp(x[1])));
  }

  private static double[][] knots(List<Judged> entries) {
    entries.sort(Comparator.comparingDouble(Judged::confidence));
    List<double[]> groups = new ArrayList<>();
    for (int i = 0; i < entries.size(); i += GROUP) {
      int end = entries.size() - i < 2 * GROUP ? entries.size() : i + GROUP;
      double[] group = new double[3];
      for (Judged e : entries.subList(i, end)) {
        group[0] += e.confidence();
        group[1] += e.right() ? 1 : 0;
        group[2]++;
      }
      groups.add(group);
      while (groups.size() > 1 && share(groups, 1) >= share(groups, 0)) {
        double[] last = groups.remove(groups.size() - 1);
        double[] before = groups.get(groups.size() - 1);
        for (int k = 0; k < 3; k++) {
          before[k] += last[k];
        }
      }
      i = end - GROUP;
    }
    List<double[]> knots = new ArrayList<>();
    knots.add(new double[] {0, 0});
    for (double[] g : groups) {
      knots.add(new double[] {round(g[0] / g[2]), round((g[1] + 0.5) / (g[2] + 1))});
    }
    knots.add(new double[] {1, knots.get(knots.size() - 1)[1]});
    return knots.toArray(double[][]::new);
  }

  private static double round(double v) {
    return Math.round(v * 10000) / 10000.0;
  }

  /** Share of right ones in the last group but some. */
  private static double share(List<double[]> groups, int back) {
    double[] g = groups.get(groups.size() - 1 - back);
    return g[1] / g[2];
  }

  /** Expected calibration error over ten bins. */
  static double error(List<Labelled> pages, Costs costs, Calibration calibration) {
    double off = 0;
    double n = 0;
    for (double[] bin : bins(pages, costs, calibration)) {
      off += Math.abs(bin[1] - bin[2]);
      n += bin[0];
    }
    return off / n;
  }

  /** Entries, sum of confidences and right ones by tenths of confidence. */
  private static double[][] bins(List<Labelled> pages, Costs costs, Calibration calibration) {
    double[][] bins = new double[10][3];
    for (Judged e : judged(pages, costs, calibration)) {
      double[] bin = bins[(int) Math.min(9, Math.floor(e.confidence() * 10))];
      bin[0]++;
      bin[1] += e.confidence();
      bin[2] += e.right() ? 1 : 0;
    }
    return bins;
  }

  static String table(String name, List<Labelled> pages, Costs costs, Calibration calibration) {
    StringBuilder out = new StringBuilder();
    out.append(
        "%s (expected calibration error %.4f):%n%n| entries | confidence | right |%n| --- | --- | --- |%n"
            .formatted(name, error(pages, costs, calibration)));
    for (double[] bin : bins(pages, costs, calibration)) {
      if (bin[0] > 0) {
        out.append("| %.0f | %.3f | %.3f |%n".formatted(bin[0], bin[1] / bin[0], bin[2] / bin[0]));
      }
    }
    return out.append("\n").toString();
  }
}
