package org.barmap.reckon.compare;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.map.BarMap;
import org.barmap.map.MusicalNumber;

/**
 * Compares two maps of different parts of one show and lists what can't both be right.
 *
 * <p>Every number is unfolded into single bars, so parts that break their rests differently are no
 * contradiction; the bars are aligned by marks, meters, repeats and jumps.
 */
public final class BookAlignment {

  /**
   * One contradiction.
   *
   * @param number label of the musical number
   * @param kind {@code bars}, {@code mark}, {@code meter}, {@code repeat} or {@code number}
   * @param text one plain sentence, the two called as in {@link #names}
   * @param barInA id of the entry in the first map, if there is one
   * @param barInB id of the entry in the second map, if there is one
   * @param culprit {@code A} or {@code B}, the one more likely wrong; empty when it could be either
   */
  public record Difference(
      String number,
      String kind,
      String text,
      Optional<String> barInA,
      Optional<String> barInB,
      Optional<String> culprit) {}

  private BookAlignment() {}

  /** What the two are called: their parts, or the first and the second book. */
  public static List<String> names(BarMap a, BarMap b) {
    String first = a.book().part().strip();
    String second = b.book().part().strip();
    boolean told = !first.isEmpty() && !second.isEmpty() && !first.equalsIgnoreCase(second);
    return told ? List.of(first, second) : List.of("the first book", "the second book");
  }

  /** Compares number by number, matched by label. */
  public static List<Difference> compare(BarMap a, BarMap b) {
    List<Difference> out = new ArrayList<>();
    List<String> names = names(a, b);
    Map<String, MusicalNumber> inB = new HashMap<>();
    b.numbers().forEach(n -> inB.putIfAbsent(n.label(), n));
    for (MusicalNumber n : a.numbers()) {
      MusicalNumber other = inB.remove(n.label());
      if (other == null) {
        out.add(missing(n, names.get(1), n.firstBar(), Optional.empty()));
      } else if (!n.tacet() && !other.tacet()) {
        out.addAll(NumberComparison.compare(n.label(), names, a, n, b, other));
      }
    }
    b.numbers().stream()
        .filter(n -> inB.get(n.label()) == n)
        .forEach(n -> out.add(missing(n, names.get(0), Optional.empty(), n.firstBar())));
    return List.copyOf(out);
  }

  private static Difference missing(
      MusicalNumber n, String where, Optional<String> barInA, Optional<String> barInB) {
    return new Difference(
        n.label(),
        "number",
        "There is no such number in " + where + ", not even as tacet.",
        barInA,
        barInB,
        Optional.empty());
  }
}
