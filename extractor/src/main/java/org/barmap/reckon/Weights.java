package org.barmap.reckon;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.barmap.sign.Reading;

/** Turns readings of a numeral into weights of a step. */
final class Weights {

  private Weights() {}

  /**
   * A number printed at a bar's beginning.
   *
   * @param readings what it may say
   * @param there how likely there is a printed number at all
   */
  static Observe printed(List<Reading> readings, double there, Costs costs) {
    Map<Integer, Double> says = new TreeMap<>();
    double listed = spread(readings, costs.misreadNumber(), there, costs, says);
    double misread = Math.max(costs.misreadNumber(), 1 - listed) * (1 - costs.oneFigure());
    double base = misread * there + 1 - there;
    return new Observe(keys(says), values(says), Math.max(base, costs.floor()) / Costs.NUMBERS);
  }

  /**
   * A rest of several bars.
   *
   * @param readings of its numeral; empty where none was found
   * @param there how likely there is such a rest at all
   */
  static Move rest(List<Reading> readings, double there, Costs costs) {
    double sure = Math.min(there, 1 - costs.floor());
    Map<Integer, Double> says = new TreeMap<>();
    double listed = spread(readings, costs.misreadCount(), sure, costs, says);
    says.remove(0);
    says.merge(1, 1 - sure, Double::sum);
    double share = listed > 0 ? 1 - costs.oneFigure() : 1;
    double other = sure * Math.max(costs.misreadCount(), 1 - listed) * share / Costs.COUNTS;
    int[] shifts = says.keySet().stream().mapToInt(v -> v - 1).toArray();
    return new Move(shifts, values(says), other, Costs.COUNTS - 1);
  }

  /**
   * Adds up what a numeral may say: its readings, and what they would be with one figure wrong.
   *
   * @return the weight of the readings themselves
   */
  private static double spread(
      List<Reading> readings,
      double misread,
      double there,
      Costs costs,
      Map<Integer, Double> says) {
    double listed = 0;
    for (Reading r : readings) {
      if (Marks.number(r.text()) >= 0) {
        double weight = r.probability() * (1 - misread);
        listed += weight;
        says.merge(Marks.number(r.text()), there * weight, Double::sum);
      }
    }
    double off = Math.max(misread, 1 - listed) * costs.oneFigure() * there;
    for (Reading r : readings) {
      if (r.text().matches("\\d{1,4}")) {
        double share = off * r.probability() / Math.max(1e-6, listed / (1 - misread));
        Marks.oneFigureOff(r.text(), share).forEach((v, w) -> says.merge(v, w, Double::sum));
      }
    }
    return listed;
  }

  private static int[] keys(Map<Integer, Double> says) {
    return says.keySet().stream().mapToInt(v -> v).toArray();
  }

  private static double[] values(Map<Integer, Double> says) {
    return says.values().stream().mapToDouble(w -> w).toArray();
  }
}
