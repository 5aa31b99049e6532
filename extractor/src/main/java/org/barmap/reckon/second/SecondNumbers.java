package org.barmap.reckon.second;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.barmap.map.Bar;
import org.barmap.map.Evidence;
import org.barmap.map.Evidence.Alternative;
import org.barmap.map.Finding;
import org.barmap.map.Finding.Answer;
import org.barmap.map.SecondReading.Measure;
import org.barmap.reckon.cells.Marks;
import org.barmap.reckon.compare.Aligner;
import org.barmap.reckon.set.ReckonSettings;
import org.barmap.reckon.set.SecondSettings;
import org.barmap.reckon.write.FindingWriter;
import org.barmap.reckon.write.SecondDifference;

/**
 * What a second reading says of bar numbers.
 *
 * <p>Only where its numbers begin or jump do they say more than that it counted on. Scores that are
 * numbered through the whole show say nothing about books that begin again in each number.
 */
public final class SecondNumbers {

  private static final SecondSettings.SaidNumbers SET = ReckonSettings.STANDARD.second().numbers();

  /** The kind of doubt where bar numbers differ. */
  public static final String CODE = "second-number";

  private SecondNumbers() {}

  /** Tells whether the source counts a bar; half of one split at a repeat has a name like X1. */
  static boolean isCounted(Measure m) {
    return !m.implicit() || m.number().matches("\\d{1,4}");
  }

  /**
   * Tells whether a bar's number says more than that the source counted on: where it begins or
   * jumps. A source that lost a bar has every number after it wrong.
   */
  static boolean isSaid(List<Measure> measures, int i) {
    int now = Marks.number(measures.get(i).number());
    return now >= 0 && now != before(measures, i) + 1;
  }

  /** Tells whether the source's numbers begin again at a bar, or at its first. */
  static boolean restarts(List<Measure> measures, int i) {
    int now = Marks.number(measures.get(i).number());
    return now >= 0 && now <= 1 && (i == 0 || before(measures, i) > now);
  }

  /** The last number before a bar; -2 for none. */
  private static int before(List<Measure> measures, int i) {
    for (int j = i - 1; j >= 0 && j > i - SET.back(); j--) {
      int number = Marks.number(measures.get(j).number());
      if (number >= 0) {
        return number;
      }
    }
    return -2;
  }

  /**
   * Which entries' numbers the second reading says.
   *
   * @return by entry, the number or -1; all -1 where most of it contradicts what the page prints
   */
  public static int[] said(List<Bar> bars, List<Measure> measures, List<Aligner.Taken> taken) {
    int[] said = new int[bars.size()];
    int same = 0;
    int other = 0;
    for (int i = 0; i < said.length; i++) {
      said[i] = -1;
      Aligner.Taken t = taken.get(i);
      if (t.size() > 0) {
        Measure first = measures.get(t.from());
        boolean counts = isSaid(measures, t.from()) && !Marks.isLettered(first.number());
        said[i] = counts ? Marks.number(first.number()) : -1;
        List<Alternative> printed = bars.get(i).evidence().map(Evidence::numbers).orElse(List.of());
        if (!printed.isEmpty() && printed.get(0).probability() > SET.printed()) {
          boolean agrees = printed.get(0).text().equals(first.number());
          same += agrees ? 1 : 0;
          other += agrees ? 0 : 1;
        }
      }
    }
    if (other > same && other > SET.contradicted()) {
      java.util.Arrays.fill(said, -1);
    }
    return said;
  }

  /**
   * Says where the settled numbers are others, or where only the second reading calls a bar by a
   * letter, 24A.
   */
  public static List<Finding> differing(
      List<Bar> settled, List<Measure> measures, List<Aligner.Taken> taken, int[] said) {
    List<Finding> out = new ArrayList<>();
    for (int i = 0; i < said.length; i++) {
      Bar bar = settled.get(i);
      if (said[i] >= 0 && said[i] != bar.number()) {
        String number = Integer.toString(said[i]);
        out.add(finding(bar, number, Map.of("kind", "set-number", "number", number)));
      }
      String called = taken.get(i).size() > 0 ? measures.get(taken.get(i).from()).number() : "";
      if (Marks.isLettered(called) && bar.label().filter(Marks::isLettered).isEmpty()) {
        out.add(finding(bar, called, Map.of("kind", "set-label", "label", called)));
      }
    }
    return out.size() > SET.otherwise() ? List.of() : out;
  }

  private static Finding finding(Bar bar, String called, Map<String, String> correction) {
    String text =
        "The second reading calls this bar " + called + ", the page " + bar.number() + ".";
    Map<String, String> here = new TreeMap<>(correction);
    here.put("bar", bar.id());
    Answer other = new Answer("This bar is " + called, here);
    return FindingWriter.doubt(bar, CODE, text, List.of(SecondDifference.PAGE, other), 1);
  }

  /** The number a second reading says of an entry that was settled with it. */
  public static Optional<Integer> of(Bar bar) {
    return bar.evidence()
        .flatMap(Evidence::second)
        .filter(Evidence.Second::begins)
        .map(s -> Marks.number(s.number()))
        .filter(n -> n >= 0);
  }
}
