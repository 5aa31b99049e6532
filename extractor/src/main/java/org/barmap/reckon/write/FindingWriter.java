package org.barmap.reckon.write;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.map.Bar;
import org.barmap.map.Evidence;
import org.barmap.map.Finding;
import org.barmap.map.Finding.Answer;
import org.barmap.map.Point;
import org.barmap.map.Severity;
import org.barmap.map.Stage;
import org.barmap.reckon.cells.Marks;
import org.barmap.reckon.cost.Costs;

/** Says where evidence disagreed, in the order of how many bars an error there would shift. */
public final class FindingWriter {

  /** The kind of doubt where a printed number contradicts the counting. */
  public static final String MISREAD = "number-misread";

  /** The kind of doubt where the numbers jump to a printed one. */
  public static final String MISSING = "bars-missing";

  /** Bars put in later have letters, and those of a second ending may be counted as the first's. */
  private static final String UNCOUNTED =
      ": bars before it may be called by letters, as 23A, or a barline too many was read.";

  private final List<Finding> findings = new ArrayList<>();
  private final Costs costs;
  private final List<Item> items;
  private final HandSet byHand;

  /** Takes the settled bars in reading order. */
  public FindingWriter(Costs costs, List<Item> items) {
    this(costs, items, HandSet.NOTHING);
  }

  /** Takes the settled bars in reading order, and what of them people set. */
  public FindingWriter(Costs costs, List<Item> items, HandSet byHand) {
    this.costs = costs;
    this.items = items;
    this.byHand = byHand;
  }

  /** All findings, most important first. */
  public List<Finding> write() {
    for (int i = 0; i < items.size(); i++) {
      Optional<SecondDifference> second = SecondDifference.at(items.get(i));
      if (second.isPresent()) {
        add(i, SecondDifference.CODE, second.get().text(), second.get().answers());
      } else {
        count(i, items.get(i));
      }
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
              + " for now. How many bars is it?"
              + alsoSays(bar),
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
              + "."
              + alsoSays(bar),
          List.of(isCount(bar, count), isCount(bar, read)));
    } else if (item.countChoice() < costs.doubt()) {
      int other = Math.max(1, item.otherCount());
      add(
          i,
          "count-unsure",
          "Read as a rest of " + count + "; it may also be " + other + "." + alsoSays(bar),
          List.of(isCount(bar, count), isCount(bar, other)));
    }
  }

  static Map<String, String> joined(Bar bar) {
    return Map.of("kind", "remove-barline", "bar", bar.id(), "side", "end");
  }

  /** Returns the answer that there is a barline in a bar. */
  public static Answer isBarline(String label, Bar bar, Point at) {
    return new Answer(
        label,
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
            Double.toString(at.y())));
  }

  /** What a second reading says, as a sentence; empty where it says nothing. */
  private static String alsoSays(Bar bar) {
    return bar.evidence()
        .flatMap(Evidence::second)
        .map(s -> " The second reading has " + (s.count() == 0 ? "no such bar" : s.count()) + ".")
        .orElse("");
  }

  /** Returns a number of bars in words. */
  public static String bars(int n) {
    return n == 1 ? "one bar" : n + " bars";
  }

  static Answer isCount(Bar bar, int count) {
    return new Answer(
        "This rest is " + count,
        Map.of("kind", "set-count", "bar", bar.id(), "count", Integer.toString(count)));
  }

  private void lines(int i, Item item) {
    Map<String, String> remove = joined(item.bar());
    if (item.lineMissing()) {
      add(
          i,
          "barline-missing",
          "A barline seems to be missing here: the counting, or what the notes add up to, makes one"
              + " bar more. Its place is a guess.",
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
      if (read >= 0 && read != bar.number() && !byHand.named(bar)) {
        misread(i, text, read);
      }
    }
  }

  private void misread(int i, String text, int read) {
    Bar bar = items.get(i).bar();
    String seen = "A printed " + text + " was read here, but ";
    String misread = "he printed " + text + " was misread";
    Answer print = isPrinted(bar, text, read);
    Optional<HandSet.Reason> reason = byHand.before(items, i);
    if (byHand.numbered(bar)) {
      String stays = "It stays " + bar.number() + ": t" + misread;
      add(
          i,
          MISREAD,
          seen + "its number was set to " + bar.number() + ".",
          List.of(new Answer(stays, Map.of()), print));
    } else if (reason.isPresent()) {
      List<Answer> answers = new ArrayList<>();
      answers.add(new Answer(reason.get().stays() + ": t" + misread, Map.of()));
      reason.get().asked(read, bar.number()).ifPresent(answers::add);
      answers.add(print);
      String why = ", because " + reason.get().says() + ".";
      add(i, MISREAD, seen + "counting gives " + bar.number() + why, answers);
    } else {
      add(
          i,
          MISREAD,
          seen + "counting gives " + bar.number() + ".",
          List.of(new Answer("T" + misread, Map.of()), print));
    }
  }

  /** A doubt that was written elsewhere. */
  public void add(Finding doubt) {
    findings.add(doubt);
  }

  /** A line inside bar {@code i} that was read but not believed. */
  public void refused(int i, Point at) {
    Bar bar = items.get(i).bar();
    add(
        i,
        "barline-refused",
        "A line was read inside this bar that the counting has no room for.",
        List.of(new Answer("It is no barline", Map.of()), isBarline("It is a barline", bar, at)));
  }

  /**
   * The printed numbers don't go on at bar {@code i}; counting on would make it {@code expected}.
   * Where they jump, bars seem to be missing before it; where they go back, some before it don't
   * count.
   */
  public void missing(int i, int expected) {
    Bar bar = items.get(i).bar();
    boolean back = expected > bar.number();
    Optional<HandSet.Reason> reason = byHand.before(items, i);
    List<Answer> answers = new ArrayList<>();
    answers.add(new Answer(back ? "The print is right" : "Bars are missing here", Map.of()));
    reason.flatMap(r -> r.asked(bar.number(), expected)).ifPresent(answers::add);
    Optional<String> lettered =
        items.get(i).printed().stream().filter(Marks::isLettered).findFirst();
    lettered.map(text -> isPrinted(bar, text, bar.number())).ifPresent(answers::add);
    answers.add(isNumber(bar, expected));
    String printed = lettered.orElse(Integer.toString(bar.number()));
    String counting = ", but counting gives " + expected;
    String goes = "The printed numbers " + (back ? "go back" : "jump") + " here to " + printed;
    String what = back ? "bars before it don't count" : "a line or a page is missing before it";
    String text =
        reason
            .map(r -> counting + ", because " + r.says() + ". If that is right, " + what + ".")
            .orElse(back ? counting + UNCOUNTED : ": a line or a page may be missing before it.");
    add(i, MISSING, goes + text, answers);
  }

  /** A musical number begins at bar {@code i} without a heading. */
  public void start(int i, String label) {
    String bar = items.get(i).bar().id();
    add(
        i,
        "number-start",
        "Counting starts again here, but no heading of a musical number was read.",
        List.of(
            new Answer(
                "No. " + label + " starts here",
                Map.of("kind", "start-number", "bar", bar, "label", label, "title", "")),
            new Answer(
                "It is no new number", Map.of("kind", "remove-number", "bar", bar, "label", ""))));
  }

  /** Whether bar {@code i} is a rest is unsure; nothing else shifts by it. */
  public void content(int i) {
    Bar bar = items.get(i).bar();
    boolean rest = bar.isRest();
    findings.add(
        doubt(
            i,
            "content-unsure",
            rest
                ? "A rest was read in this bar, but not for sure."
                : "There may be a whole-bar rest in this bar.",
            List.of(isContent(bar, "rest", "It is a rest"), isContent(bar, "music", "It is music")),
            1));
  }

  private static Answer isContent(Bar bar, String content, String label) {
    return new Answer(
        label, Map.of("kind", "set-content", "bar", bar.id(), "content", content, "count", "1"));
  }

  /**
   * The answer that a bar is called what is printed at it; one called "23A" has no number of its
   * own.
   */
  private static Answer isPrinted(Bar bar, String text, int read) {
    return Marks.isLettered(text)
        ? new Answer(
            "This bar is " + text, Map.of("kind", "set-label", "bar", bar.id(), "label", text))
        : isNumber(bar, read);
  }

  private static Answer isNumber(Bar bar, int number) {
    return new Answer("This bar is " + number, number(bar, number));
  }

  static Map<String, String> number(Bar bar, int number) {
    return Map.of("kind", "set-number", "bar", bar.id(), "number", Integer.toString(number));
  }

  /**
   * A rehearsal mark was settled against its reading; nothing else shifts by it.
   *
   * @param settled what it is now
   * @param read what it looked like, empty for nothing clear
   */
  public void mark(int i, String settled, String read) {
    String bar = items.get(i).bar().id();
    String text =
        "The mark here looks like "
            + (read.isEmpty() ? "nothing clear" : read)
            + "; in its place it should be "
            + settled
            + ".";
    Answer other =
        read.isEmpty()
            ? new Answer("There is no mark", Map.of("kind", "remove-rehearsal", "bar", bar))
            : isMark(bar, read);
    findings.add(doubt(i, "mark-settled", text, List.of(isMark(bar, settled), other), 1));
  }

  /** Returns the answer that a bar's mark says this. */
  public static Answer isMark(String bar, String text) {
    return new Answer(
        "It is " + text,
        Map.of("kind", "set-rehearsal", "bar", bar, "text", text, "enclosure", "box"));
  }

  private void add(int i, String code, String text, List<Answer> answers) {
    findings.add(doubt(i, code, text, answers, reach(i)));
  }

  private Finding doubt(int i, String code, String text, List<Answer> answers, double weight) {
    return doubt(items.get(i).bar(), code, text, answers, weight);
  }

  /** A doubt about a bar; its weight is how many bars an error there would shift. */
  public static Finding doubt(
      Bar bar, String code, String text, List<Answer> answers, double weight) {
    return Finding.ofBar(Severity.DOUBT, Stage.RECKON, bar, code, text, answers, weight);
  }

  /** What is good to know at a bar and speaks against nothing. */
  public static Finding told(Bar bar, String code, String text) {
    return Finding.ofBar(
        Severity.INFO, Stage.RECKON, bar, code, text, List.of(SecondDifference.PAGE), 0);
  }
}
