package org.barmap.plan.reference;

import java.util.ArrayList;
import java.util.List;
import org.barmap.plan.reference.Resolved.At;

/**
 * Bars inserted behind a bar.
 *
 * @param after the bar they come behind
 * @param names what they are called, one each
 * @param behindSign they sound only when the player goes on past the sign at the end of that bar
 */
record Insertion(int after, List<String> names, boolean behindSign) {

  static List<Insertion> of(
      WrittenNumber number,
      List<At> changes,
      List<Repeat> repeats,
      Jumps jumps,
      Cuts cuts,
      Questions questions) {
    List<Insertion> all = new ArrayList<>();
    for (At change : changes) {
      int after = change.from();
      String name = number.bar(after).name();
      String place = number.asked(after);
      if (all.stream().anyMatch(i -> i.after() == after)) {
        questions.ask("insert-twice", place, "two insertions behind one bar", "in their order");
      }
      if (!number.bar(after).last()) {
        // Source: decided: inside rests asked.
        questions.ask("insert-in-rest", place, "bars inserted inside a rest", "there");
      }
      if (cuts.over(after)) {
        questions.ask(
            "insert-in-cut", place, "bars inserted inside a cut", "they sound", "out too");
      }
      boolean ending = repeats.stream().anyMatch(r -> !r.endings().isEmpty() && r.closesAt(after));
      // A vamp goes back there as well, with the bars added or without.
      boolean sign =
          repeats.stream()
              .anyMatch(r -> r.closesAt(after) && (r.times() > 1 || r.kind() == Repeat.Kind.OPEN));
      sign |= jumps.signAtEnd(after);
      int reading = 0;
      if (ending) {
        // Source: decided: an insertion at the end of a first ending.
        questions.ask("insert-edge", place, "bars inserted at the end of an ending", "inside it");
      } else if (sign) {
        // Source: decided: one after the D.C. bar; what can't be followed is asked.
        reading =
            questions.ask(
                "insert-edge",
                place,
                "bars inserted where a sign stands",
                "before it",
                "behind it");
      }
      all.add(new Insertion(after, names(change.change(), name), reading == 1));
    }
    return all;
  }

  // Source: trade.md, bar: inserted bars may be lettered, 241A to 241H.
  private static List<String> names(Change change, String after) {
    String label = change.text("label").orElse(after + "A");
    int bars = change.whole("bars", 1);
    List<String> names = new ArrayList<>();
    char letter = label.charAt(label.length() - 1);
    for (int k = 0; k < bars; k++) {
      boolean lettered = letter >= 'A' && letter + k <= 'Z';
      names.add(lettered ? label.substring(0, label.length() - 1) + (char) (letter + k) : label);
    }
    return names;
  }
}
