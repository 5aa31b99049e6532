package org.barmap.plan.change.effect;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Meter;

/**
 * Bars that are not in the book.
 *
 * @param bars how many
 * @param before they come before the bar of the change, not after it
 * @param label what the first of them is called; the others go on from it
 * @param rest the player rests in them, or plays; empty where nothing is said
 * @param meter their meter; empty for that of the bars around them
 */
public record Added(
    int bars,
    boolean before,
    Optional<String> label,
    Optional<Boolean> rest,
    Optional<Meter> meter) {

  /** Returns what each of them is called: 24A, 24B, 24C; empty where they have no names. */
  public List<String> labels() {
    List<String> labels = new ArrayList<>();
    label.ifPresent(
        first -> {
          String next = first;
          for (int i = 0; i < bars; i++) {
            labels.add(next);
            next = next(next);
          }
        });
    return labels;
  }

  /** Counts on in letters, from Z to AA, or in figures. */
  private static String next(String label) {
    int end = label.length() - 1;
    char last = label.charAt(end);
    if ((last >= 'A' && last < 'Z') || (last >= 'a' && last < 'z')) {
      return label.substring(0, end) + (char) (last + 1);
    }
    if (last == 'Z' || last == 'z') {
      return label.substring(0, end) + (last == 'Z' ? "AA" : "aa");
    }
    int from = label.length();
    while (from > 0 && label.length() - from < 6 && Character.isDigit(label.charAt(from - 1))) {
      from--;
    }
    return from == label.length()
        ? label + "A"
        : label.substring(0, from) + (Integer.parseInt(label.substring(from)) + 1);
  }
}
