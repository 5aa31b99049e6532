package org.barmap.reckon;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.map.Bar;
import org.barmap.map.Finding;
import org.barmap.map.Finding.Answer;
import org.barmap.map.Point;
import org.barmap.map.Severity;
import org.barmap.map.Stage;

/** Says where evidence disagreed, in the order of how many bars an error there would shift. */
final class FindingWriter {

  private final List<Finding> findings = new ArrayList<>();
  private final Costs costs;
  private final List<Item> items;

  FindingWriter(Costs costs, List<Item> items) {
    this.costs = costs;
    this.items = items;
  }

  /** All findings, most important first. */
  List<Finding> write() {
    for (int i = 0; i < items.size(); i++) {
      count(i, items.get(i));
      lines(i, items.get(i));
      printed(i, items.get(i));
    }
    findings.sort(Comparator.comparingDouble(Finding::weight).reversed());
    return List.copyOf(findings);
  }

  /** Bars up to the next place where the print confirms the counting. */
  private double reach(int from) {
    double sum = 0;
    for (int i = from; i < items.size(); i++) {
      Item item = items.get(i);
      int number = item.bar().number();
      if (i > from && item.printed().stream().anyMatch(t -> Marks.number(t) == number)) {
        break;
      }
      sum += item.bar().count();
    }
    return sum;
  }

  private void count(int i, Item item) {
    if (!item.rest()) {
      return;
    }
    Bar bar = item.bar();
    int count = bar.count();
    if (item.readCount().isEmpty()) {
      add(
          i,
          "count-missing",
          "This rest has no numeral that could be read; it counts as "
              + bars(count)
              + " for now. How many bars is it?",
          List.of(isCount(bar, count)));
    } else if (item.readCount().get() != count) {
      int read = item.readCount().get();
      add(
          i,
          "count-settled",
          "The numeral looks like "
              + read
              + ", but the numbers printed around it ask for "
              + count
              + ".",
          List.of(isCount(bar, count), isCount(bar, read)));
    } else if (item.countChoice() < costs.doubt()) {
      int other = Math.max(1, item.otherCount());
      add(
          i,
          "count-unsure",
          "Read as a rest of " + count + "; it may also be " + other + ".",
          List.of(isCount(bar, count), isCount(bar, other)));
    }
  }

  private static String bars(int n) {
    return n == 1 ? "one bar" : n + " bars";
  }

  private static Answer isCount(Bar bar, int count) {
    return new Answer(
        "This rest is " + count,
        Map.of("kind", "set-count", "bar", bar.id(), "count", Integer.toString(count)));
  }

  private void lines(int i, Item item) {
    Map<String, String> remove =
        Map.of("kind", "remove-barline", "bar", item.bar().id(), "side", "end");
    if (item.lineMissing()) {
      add(
          i,
          "barline-missing",
          "The counting needs one more bar here: a barline seems to be missing. Its place is a"
              + " guess.",
          List.of(
              new Answer("A barline is missing here", Map.of()),
              new Answer("It is one bar", remove)));
    } else if (item.lineDoubtful()) {
      add(
          i,
          "barline-unsure",
          "The line after this bar may not be a barline.",
          List.of(new Answer("It is a barline", Map.of()), new Answer("It is not", remove)));
    }
  }

  private void printed(int i, Item item) {
    Bar bar = item.bar();
    for (String text : item.printed()) {
      int read = Marks.number(text);
      if (read >= 0 && read != bar.number()) {
        add(
            i,
            "number-misread",
            "A printed " + text + " was read here, but counting gives " + bar.number() + ".",
            List.of(
                new Answer("The printed " + text + " was misread", Map.of()),
                new Answer(
                    "This bar is " + read,
                    Map.of(
                        "kind", "set-number", "bar", bar.id(), "number", Integer.toString(read)))));
      }
    }
  }

  /** A line inside bar {@code i} that was read but not believed. */
  void refused(int i, Point at) {
    Bar bar = items.get(i).bar();
    add(
        i,
        "barline-refused",
        "A line was read inside this bar that the counting has no room for.",
        List.of(
            new Answer("It is no barline", Map.of()),
            new Answer(
                "It is a barline",
                Map.of(
                    "kind",
                    "add-barline",
                    "page",
                    Integer.toString(bar.page()),
                    "system",
                    Integer.toString(bar.system()),
                    "x",
                    Double.toString(at.x()),
                    "y",
                    Double.toString(at.y())))));
  }

  /** The counting jumps at bar {@code i}. */
  void jump(int i, String code, String text) {
    add(i, code, text, List.of());
  }

  /** A rehearsal mark was settled against its reading; nothing else shifts by it. */
  void mark(int i, String text, List<Answer> answers) {
    findings.add(doubt(i, "mark-settled", text, answers, 1));
  }

  private void add(int i, String code, String text, List<Answer> answers) {
    findings.add(doubt(i, code, text, answers, reach(i)));
  }

  private Finding doubt(int i, String code, String text, List<Answer> answers, double weight) {
    Bar bar = items.get(i).bar();
    return new Finding(
        Severity.DOUBT,
        Stage.RECKON,
        Optional.of(bar.page()),
        Optional.of(bar.system()),
        Optional.of(bar.id()),
        Optional.of(bar.outline()),
        code,
        text,
        answers,
        weight);
  }
}
