package org.barmap.plan.words;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.kind.Reorder;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.change.say.Meta;

/** Reads words about the order of numbers: "No. 9 before No. 8", "order: 1, 3, 2". */
final class Orders {
  private static final String NUMBER = "(?:(?:no|nr)\\b\\.?|number|#|\\u2116)\\s*(\\w{1,6})";
  private static final Pattern MOVE =
      phrase(
          "(?:(?:move|put|play)\\s+)?"
              + NUMBER
              + "\\s+(?:(?:comes|goes|moves|is|moved|now)\\s+)*(before|after)\\s+"
              + NUMBER
              + "\\.?");
  private static final Pattern SWAP =
      phrase(
          "(?:swap|switch|exchange)(?:\\s+(?:over|round))?\\s+(?:(?:nos?|nrs?|numbers?)\\b\\.?\\s*)?(\\w{1,6})\\s+(?:and|with|for)\\s+(?:(?:no|nr|number)\\b\\.?\\s*)?(\\w{1,6})\\.?");
  private static final Pattern LIST =
      phrase("(?:new\\s+)?(?:running\\s+)?order(?:\\s+of\\s+numbers)?\\s*:?\\s*(.+)");

  private Orders() {}

  static Optional<Heard<ShowChange>> read(String line, List<WrittenNumber> numbers, String id) {
    Matcher move = MOVE.matcher(line);
    if (move.matches()) {
      return Optional.of(move(line, numbers, id, move));
    }
    Matcher swap = SWAP.matcher(line);
    if (swap.matches()
        && index(numbers, swap.group(1)) >= 0
        && index(numbers, swap.group(2)) >= 0) {
      return Optional.of(swap(line, numbers, id, swap));
    }
    Matcher list = LIST.matcher(line);
    if (!list.matches()) {
      return Optional.empty();
    }
    List<String> labels = new ArrayList<>();
    String said = list.group(1).replaceAll("(?i)(?:\\b(?:nos?|nr|numbers?)\\b\\.?|#)\\s*", "");
    for (String label : said.split("(?:\\s*[,/]\\s*|\\s+)(?:(?:and|then)\\s+)?")) {
      if (index(numbers, label) < 0) {
        return Optional.of(unknown(line, label, numbers));
      }
      labels.add(numbers.get(index(numbers, label)).label());
    }
    if (labels.size() < 2 || labels.stream().distinct().count() < labels.size()) {
      return Optional.of(
          new Heard.AskedBack<>(line, "In what order? Name each number once.", all(numbers)));
    }
    return Optional.of(done(line, labels, id));
  }

  private static Heard<ShowChange> move(
      String line, List<WrittenNumber> numbers, String id, Matcher move) {
    int moved = index(numbers, move.group(1));
    int anchor = index(numbers, move.group(3));
    if (moved < 0 || anchor < 0 || moved == anchor) {
      return unknown(line, moved < 0 ? move.group(1) : move.group(3), numbers);
    }
    List<String> labels = new ArrayList<>(numbers.stream().map(WrittenNumber::label).toList());
    labels.remove(moved);
    int at = labels.indexOf(numbers.get(anchor).label());
    labels.add(move.group(2).equalsIgnoreCase("before") ? at : at + 1, numbers.get(moved).label());
    return done(line, labels, id);
  }

  private static Heard<ShowChange> swap(
      String line, List<WrittenNumber> numbers, String id, Matcher swap) {
    List<String> labels = new ArrayList<>(numbers.stream().map(WrittenNumber::label).toList());
    Collections.swap(labels, index(numbers, swap.group(1)), index(numbers, swap.group(2)));
    return done(line, labels, id);
  }

  private static Heard<ShowChange> done(String line, List<String> labels, String id) {
    return new Heard.Understood<>(
        line,
        new Reorder(Meta.of(id), labels),
        "These numbers are played in the order " + String.join(", ", labels) + ".");
  }

  private static Heard<ShowChange> unknown(String line, String label, List<WrittenNumber> numbers) {
    return new Heard.AskedBack<>(line, "There is no No. " + label + " in this book.", all(numbers));
  }

  private static List<String> all(List<WrittenNumber> numbers) {
    return numbers.stream().map(WrittenNumber::label).limit(PlanFinding.MOST_NUMBERS).toList();
  }

  private static int index(List<WrittenNumber> numbers, String label) {
    for (int i = 0; i < numbers.size(); i++) {
      if (numbers.get(i).label().equalsIgnoreCase(label)) {
        return i;
      }
    }
    return -1;
  }
}
