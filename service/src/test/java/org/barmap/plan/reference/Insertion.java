package org.barmap.plan.reference;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Meter;
import org.barmap.map.Navigation;
import org.barmap.plan.reference.Resolved.At;
import org.barmap.plan.reference.print.WrittenBar;
import org.barmap.plan.reference.print.WrittenNumber;

/**
 * Bars inserted behind a bar.
 *
 * @param after the bar they come behind, -1 before all
 * @param host the bar they are said to come behind, or before
 * @param names what they are called, one each
 * @param behindSign they sound only when the player goes on past the sign at the end of that bar
 * @param meter their own
 */
record Insertion(
    int after, int host, List<String> names, boolean behindSign, Optional<Meter> meter) {

  static List<Insertion> of(
      WrittenNumber number,
      List<At> changes,
      List<Repeat> repeats,
      Jumps jumps,
      Cuts cuts,
      Questions questions) {
    List<Insertion> all = new ArrayList<>();
    for (At change : changes) {
      int host = change.from();
      boolean ahead = change.change().has("before");
      int after = ahead ? host - 1 : host;
      String name = number.bar(host).name();
      String place = number.asked(host);
      List<String> names = names(change.change(), name);
      Optional<Meter> meter = change.change().text("meter").map(SaidMeters::read);
      if (all.stream().anyMatch(i -> i.after() == after)) {
        int said =
            questions.ask(
                "insert-twice",
                place,
                "two insertions behind one bar",
                "in their order",
                "said twice, where they are alike");
        if (said == 1 && all.stream().anyMatch(i -> i.host() == host && i.names().equals(names))) {
          continue;
        }
      }
      if (ahead ? !number.bar(host).first() : !number.bar(host).last()) {
        // Source: decided: inside rests asked.
        questions.ask("insert-in-rest", place, "bars inserted inside a rest", "there");
      }
      if (after >= 0 && (cuts.over(after) || cuts.overInOnePass(after))) {
        int out =
            questions.ask(
                "insert-in-cut", place, "bars inserted inside a cut", "they sound", "out too");
        if (out == 1) {
          continue;
        }
      }
      if (ahead) {
        askStart(number, host, repeats, jumps, questions);
        all.add(new Insertion(after, host, names, true, meter));
        continue;
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
      all.add(new Insertion(after, host, names, reading == 1, meter));
    }
    return all;
  }

  // Source: decided: an insertion where a sign stands is asked; so before a bar that one comes back
  // to, or that a bracket begins with.
  private static void askStart(
      WrittenNumber number, int at, List<Repeat> repeats, Jumps jumps, Questions questions) {
    WrittenBar bar = number.bar(at);
    boolean back = repeats.stream().anyMatch(r -> r.from() == at);
    boolean sign = bar.has(Navigation.SEGNO) || bar.has(Navigation.CODA);
    boolean capo = at == 0 && jumps.jumps().stream().anyMatch(j -> j.target() == 0);
    List<Integer> before = at == 0 ? List.of() : number.endingAt(at - 1);
    boolean bracket = !number.endingAt(at).isEmpty() && !number.endingAt(at).equals(before);
    if (back || sign || capo || bracket || number.repeatStartsAt(at)) {
      questions.ask(
          "insert-edge", number.asked(at), "bars inserted where a sign stands", "before it");
    }
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
