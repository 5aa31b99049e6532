package org.barmap.edit.draft;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.IntStream;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Barline;
import org.barmap.map.Finding;
import org.barmap.map.Finding.Answer;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Page;
import org.barmap.map.Severity;
import org.barmap.map.StaffSystem;
import org.barmap.map.Stage;
import org.barmap.map.rule.AlikeEndings;
import org.barmap.reckon.cells.Marks;
import org.barmap.reckon.write.FindingWriter;

/**
 * Where a map contradicts itself, whoever said so: numbers that do not count on, a printed number
 * that is not the counted one, a beginning that an edit moved, musical numbers out of order.
 *
 * <p>What the reckoning asks at a bar already is not asked twice. On a verified page these are
 * errors: somebody said that the page is right, and it is not as it was then.
 */
public final class Contradictions {

  /** The numbers do not count on from the bar before. */
  public static final String JUMP = "numbers-jump";

  /** The number printed at a line is not the counted one. */
  public static final String PRINT = "print-differs";

  /** After an edit a musical number begins to count elsewhere than at 1. */
  public static final String BEGINS = "number-begins";

  /** Two musical numbers have one name. */
  public static final String SAME = "order-same";

  /** A musical number comes after one that is higher. */
  public static final String BACK = "order-back";

  /** What is asked of a bar's number. */
  static final Set<String> OF_NUMBERS =
      Set.of(JUMP, PRINT, BEGINS, FindingWriter.MISREAD, FindingWriter.MISSING);

  /** Between two musical numbers one is missing. */
  public static final String GAP = "order-gap";

  private static final Pattern FIGURES = Pattern.compile("(\\d{1,4}).*");

  private final BarMap map;
  private final Settled settled;
  private final Set<String> asked = new HashSet<>();
  private final List<Finding> found = new ArrayList<>();

  private Contradictions(BarMap map, Settled settled, List<Finding> open) {
    this.map = map;
    this.settled = settled;
    for (Finding f : open) {
      boolean ofNumber = OF_NUMBERS.contains(f.code()) || f.code().startsWith("number-");
      f.bar().ifPresent(b -> asked.add((ofNumber ? "number" : f.code()) + "@" + b));
    }
  }

  /**
   * Finds them.
   *
   * @param open what is asked already
   */
  static List<Finding> of(BarMap map, Settled settled, List<Finding> open) {
    Contradictions in = new Contradictions(map, settled, open);
    in.numbers();
    in.order();
    return in.found;
  }

  /** Returns under what those of a page are remembered as answered. */
  public static Set<String> claims(Draft draft, int page) {
    Set<String> claims = new HashSet<>();
    for (Finding f : of(draft.map(), draft.settled(), List.of())) {
      if (f.page().filter(p -> p == page).isPresent()) {
        claims.add(Settled.claim(f, draft.map()));
      }
    }
    return claims;
  }

  private void numbers() {
    List<Bar> bars = map.bars();
    Set<String> starts = Steps.startsOf(map);
    Map<Integer, Integer> alike = AlikeEndings.of(map).earlier();
    Map<String, Integer> printed = printed();
    int left = 0;
    int[] reach = new int[bars.size()];
    for (int i = bars.size() - 1; i >= 0; i--) {
      left += bars.get(i).count();
      reach[i] = left;
      left = starts.contains(bars.get(i).id()) ? 0 : left;
    }
    for (int i = 0; i < bars.size(); i++) {
      Bar bar = bars.get(i);
      if (i == 0 || starts.contains(bar.id())) {
        begins(i, starts, printed, reach[i]);
      } else if (!alike.containsKey(i)) {
        jump(bars.get(i - 1), bar, reach[i]);
      }
      boolean line = i == 0 || !place(bar).equals(place(bars.get(i - 1)));
      Integer print = printed.get(place(bar));
      boolean judged = bar.evidence().filter(e -> !e.numbers().isEmpty()).isPresent();
      if (line && print != null && print != bar.number() && (!judged || isVerified(bar))) {
        print(bar, print, reach[i]);
      }
    }
  }

  private Map<String, Integer> printed() {
    Map<String, Integer> printed = new HashMap<>();
    for (Page page : map.pages()) {
      for (StaffSystem system : page.systems()) {
        system
            .printedBarNumber()
            .ifPresent(n -> printed.put(page.index() + "/" + system.index(), n));
      }
    }
    return printed;
  }

  private static String place(Bar bar) {
    return bar.page() + "/" + bar.system();
  }

  private boolean isVerified(Bar bar) {
    return settled.verifiedPages().contains(bar.page());
  }

  private void jump(Bar before, Bar bar, int reach) {
    boolean inserted = bar.label().filter(Marks::isLettered).isPresent();
    int expected = before.nextNumber() - (inserted ? 1 : 0);
    boolean broken = before.endBarline() == Barline.NONE && bar.number() == expected - 1;
    if (bar.number() == expected || broken) {
      return;
    }
    int last = before.nextNumber() - 1;
    String text =
        bar.number() > expected
            ? "The numbers go from %d to %d here: %s nowhere."
                .formatted(last, bar.number(), between(expected, bar.number() - 1))
            : "The numbers go back here: after %d comes %d.".formatted(last, bar.number());
    String stays = bar.number() > expected ? "The bars between are not here" : "It is printed so";
    number(bar, JUMP, text, stays, expected, reach);
  }

  private static String between(int first, int last) {
    return first == last ? first + " is" : first + " to " + last + " are";
  }

  private void print(Bar bar, int print, int reach) {
    String text = "At this line %d is printed, but it counts as %d.".formatted(print, bar.number());
    number(bar, PRINT, text, "The printed " + print + " was misread", print, reach);
  }

  /**
   * Where a person changed bars before the print confirms the count, its beginning may be moved.
   */
  private void begins(int start, Set<String> starts, Map<String, Integer> printed, int reach) {
    List<Bar> bars = map.bars();
    Bar first = bars.get(start);
    if (first.number() == 1 || settled.has(first.id(), Aspect.NUMBER)) {
      return;
    }
    boolean changed = false;
    for (int i = start; i < bars.size() && !changed; i++) {
      Bar bar = bars.get(i);
      boolean line = i == start || !place(bar).equals(place(bars.get(i - 1)));
      if (i > start && (starts.contains(bar.id()) || (line && printed.containsKey(place(bar))))) {
        break;
      }
      Set<Aspect> set = settled.of(bar.id());
      changed = set.contains(Aspect.SHAPE) || set.contains(Aspect.COUNT);
    }
    if (changed) {
      String text =
          "Counting begins at %d here since bars after it were changed; numbers printed further on ask for that."
              .formatted(first.number());
      String stays = first.number() == 0 ? "It begins with a pickup, 0" : "It begins there";
      number(first, BEGINS, text, stays, 1, reach);
    }
  }

  private void number(Bar bar, String code, String text, String stays, int other, int reach) {
    if (!asked.add("number@" + bar.id())) {
      return;
    }
    Map<String, String> set =
        Map.of("kind", "set-number", "bar", bar.id(), "number", Integer.toString(other));
    add(
        bar,
        code,
        text,
        List.of(new Answer(stays, Map.of()), new Answer("This bar is " + other, set)),
        reach);
  }

  private void order() {
    Map<String, MusicalNumber> named = new HashMap<>();
    OptionalInt highest = OptionalInt.empty();
    Map<String, Bar> bars = map.barsById();
    MusicalNumber before = new MusicalNumber("", "", Optional.empty(), Optional.empty(), false);
    for (MusicalNumber n : map.numbers()) {
      Optional<Bar> first = n.firstBar().map(bars::get);
      OptionalInt own = figure(n.label());
      boolean same = !n.label().isEmpty() && named.put(n.label(), n) != null;
      if (first.isPresent() && same) {
        String text = "Two musical numbers are called No. " + n.label() + ".";
        order(first.get(), SAME, text, "Both are printed so");
      } else if (first.isPresent()
          && own.isPresent()
          && highest.isPresent()
          && own.getAsInt() < highest.getAsInt()) {
        String text =
            "No. %s comes after No. %d: a misread number, or pages in another order?"
                .formatted(n.label(), highest.getAsInt());
        order(first.get(), BACK, text, "It is printed so");
      }
      if (first.isPresent()
          && own.isPresent()
          && highest.isPresent()
          && own.getAsInt() > highest.getAsInt() + 1) {
        gap(first.get(), n.label(), before, highest.getAsInt() + 1, own.getAsInt() - 1);
      }
      highest = own.isPresent() ? own : highest;
      before = n;
    }
  }

  /**
   * Where a number is tacet its name stands over the next one's music ("No. 3 TACET"), so that the
   * music may be called like it.
   */
  private void gap(Bar bar, String label, MusicalNumber before, int after, int next) {
    Set<Integer> there = new HashSet<>();
    map.numbers().forEach(n -> figure(n.label()).ifPresent(there::add));
    // one that stands elsewhere in the book is out of order, which is asked there
    int[] nowhere =
        IntStream.rangeClosed(after, next)
            .dropWhile(there::contains)
            .takeWhile(n -> !there.contains(n))
            .toArray();
    if (nowhere.length == 0 || !asked.add(GAP + "@" + bar.id())) {
      return;
    }
    int from = nowhere[0];
    int to = nowhere[nowhere.length - 1];
    String missing = from == to ? "No. " + from + " is" : "No. " + from + " to No. " + to + " are";
    String text =
        "After No. %s comes No. %s: %s nowhere.".formatted(before.label(), label, missing);
    List<Answer> answers = new ArrayList<>();
    answers.add(
        new Answer(
            "No. " + from + " is tacet",
            Map.of(
                "kind",
                "add-tacet-number",
                "before",
                bar.id(),
                "label",
                Integer.toString(from),
                "title",
                "")));
    before
        .firstBar()
        .ifPresent(
            first ->
                answers.add(
                    new Answer(
                        "The music before is No. " + to,
                        Map.of(
                            "kind",
                            "start-number",
                            "bar",
                            first,
                            "label",
                            Integer.toString(to),
                            "title",
                            before.title()))));
    answers.add(new Answer(missing.replaceFirst("( is| are)$", "$1 not in this part"), Map.of()));
    add(bar, GAP, text, answers, 1);
  }

  private void order(Bar bar, String code, String text, String stays) {
    if (asked.add(code + "@" + bar.id())) {
      add(bar, code, text, List.of(new Answer(stays, Map.of())), 1);
    }
  }

  private static OptionalInt figure(String label) {
    Matcher figures = FIGURES.matcher(label);
    return figures.matches()
        ? OptionalInt.of(Integer.parseInt(figures.group(1)))
        : OptionalInt.empty();
  }

  private void add(Bar bar, String code, String text, List<Answer> answers, int reach) {
    Severity severity = isVerified(bar) ? Severity.ERROR : Severity.DOUBT;
    found.add(Finding.ofBar(severity, Stage.RECKON, bar, code, text, answers, reach));
  }
}
