package org.barmap.reckon.book;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.barmap.reckon.cells.Marks;
import org.barmap.reckon.cost.Costs;
import org.barmap.reckon.set.BookSettings;
import org.barmap.reckon.set.CostSettings;
import org.barmap.reckon.set.ReckonSettings;
import org.barmap.reckon.solve.Move;
import org.barmap.reckon.solve.Observe;
import org.barmap.sign.kind.Reading;

/** Turns readings of a numeral into weights of a step. */
public final class Weights {

  private static final BookSettings.Numerals SET = ReckonSettings.STANDARD.book().numerals();

  private static final CostSettings.Bounds BOUNDS = ReckonSettings.STANDARD.cost().bounds();

  private static final java.util.regex.Pattern FIGURES =
      java.util.regex.Pattern.compile("[0-9]{1,4}");

  private Weights() {}

  /**
   * A number printed at a bar's beginning.
   *
   * @param readings what it may say
   * @param there how likely there is a printed number at all
   */
  public static Observe printed(List<Reading> readings, double there, Costs costs) {
    Map<Integer, Double> says = new TreeMap<>();
    double listed =
        spread(readings, costs.numbers().misreadNumber(), there, SET.mostNumber(), costs, says);
    double misread = Math.max(costs.numbers().misreadNumber(), 1 - listed) * any(costs);
    double base = misread * there + 1 - there;
    return new Observe(keys(says), values(says), Math.max(base, costs.floor()) / BOUNDS.numbers());
  }

  /**
   * A rest of several bars.
   *
   * @param readings of its numeral; empty where none was found
   * @param there how likely there is such a rest at all
   */
  public static Move rest(List<Reading> readings, double there, Costs costs) {
    double sure = Math.min(there, 1 - costs.floor());
    Map<Integer, Double> says = new TreeMap<>();
    double listed =
        spread(readings, costs.rests().misreadCount(), sure, SET.mostCount(), costs, says);
    says.remove(0);
    says.merge(1, 1 - sure, Double::sum);
    double share = listed > 0 ? any(costs) : 1;
    double other =
        sure * Math.max(costs.rests().misreadCount(), 1 - listed) * share / BOUNDS.counts();
    int[] shifts = says.keySet().stream().mapToInt(v -> v - 1).toArray();
    return new Move(shifts, values(says), other, 0, BOUNDS.counts() - 1);
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
      int most,
      Costs costs,
      Map<Integer, Double> says) {
    double listed = 0;
    double sharpened = sharpened(readings, costs);
    for (Reading r : readings) {
      if (Marks.number(r.text()) >= 0) {
        double weight =
            Math.pow(r.probability(), costs.numerals().numeralSlope()) * sharpened * (1 - misread);
        listed += weight;
        says.merge(Marks.number(r.text()), there * weight, Double::sum);
      }
    }
    double off = Math.max(misread, 1 - listed) * there;
    for (Reading r : readings) {
      if (FIGURES.matcher(r.text()).matches()) {
        double share = off * r.probability() / Math.max(SET.tiny(), listed / (1 - misread));
        Marks.oneFigureOff(r.text(), share * costs.numerals().oneFigure())
            .forEach((v, w) -> says.merge(v, w, Double::sum));
        Marks.figureMoreOrLess(r.text(), share * costs.numerals().figureMore(), most)
            .forEach((v, w) -> says.merge(v, w, Double::sum));
      }
    }
    return listed;
  }

  /** A system that may have been missed, with any number of bars. */
  public static Move system(Costs costs) {
    int least = BOUNDS.leastSystem();
    double other = costs.restarts().missedSystem() / (BOUNDS.mostSystem() - least + 1);
    double[] none = {1 - costs.restarts().missedSystem()};
    return new Move(new int[] {0}, none, other, least, BOUNDS.mostSystem());
  }

  /** Of all misread numerals, the share that may say anything. */
  private static double any(Costs costs) {
    return 1 - costs.numerals().oneFigure() - costs.numerals().figureMore();
  }

  /** What makes the readings' powers sum up to what the readings do. */
  private static double sharpened(List<Reading> readings, Costs costs) {
    double sum = 0;
    double powers = 0;
    for (Reading r : readings) {
      sum += r.probability();
      powers += Math.pow(r.probability(), costs.numerals().numeralSlope());
    }
    return powers > 0 ? sum / powers : 1;
  }

  private static int[] keys(Map<Integer, Double> says) {
    return says.keySet().stream().mapToInt(v -> v).toArray();
  }

  private static double[] values(Map<Integer, Double> says) {
    return says.values().stream().mapToDouble(w -> w).toArray();
  }
}
