package org.barmap.edit.draft;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Barline;
import org.barmap.map.Finding;
import org.barmap.map.Finding.Answer;
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

  private final BarMap map;
  private final Settled settled;
  private final Set<String> asked = new HashSet<>();
  private final List<Finding> found = new ArrayList<>();

  /** Whether what is answered is found as well, and each of several that are one. */
  private final boolean all;

  private Contradictions(BarMap map, Settled settled, List<Finding> open, boolean all) {
    this.map = map;
    this.settled = settled;
    this.all = all;
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
    return of(map, settled, open, false);
  }

  private static List<Finding> of(BarMap map, Settled settled, List<Finding> open, boolean all) {
    Contradictions in = new Contradictions(map, settled, open, all);
    in.numbers();
    new OrderContradictions(map, in.asked, in::add).find();
    return in.found;
  }

  /** Returns under what those of a page are remembered as answered. */
  public static Set<String> claims(Draft draft, int page) {
    Set<String> claims = new HashSet<>();
    for (Finding f : of(draft.map(), draft.settled(), List.of(), true)) {
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
    Map<Line, Integer> printed = printed();
    int left = 0;
    int[] reach = new int[bars.size()];
    for (int i = bars.size() - 1; i >= 0; i--) {
      left += bars.get(i).count();
      reach[i] = left;
      left = starts.contains(bars.get(i).id()) ? 0 : left;
    }
    Optional<Off> said = Optional.empty();
    for (int i = 0; i < bars.size(); i++) {
      Bar bar = bars.get(i);
      if (i == 0 || starts.contains(bar.id())) {
        begins(i, starts, printed, reach[i]);
        said = Optional.empty();
      } else if (!alike.containsKey(i)) {
        jump(bars.get(i - 1), bar, reach[i]);
      }
      boolean line = i == 0 || !place(bar).equals(place(bars.get(i - 1)));
      Integer print = printed.get(place(bar));
      if (line && print != null) {
        said = printed(i, print, said, printed, reach[i]);
      }
    }
  }

  /** How far a printed number is from the counted one, on a page that is checked or not. */
  private record Off(int by, boolean verified) {}

  /**
   * Asks about a number printed at a line, unless the lines before it are off by as much: that is
   * one error, before the first of them.
   *
   * @param said how far off the printed number before it is, when that is asked
   */
  private Optional<Off> printed(
      int at, int print, Optional<Off> said, Map<Line, Integer> printed, int reach) {
    Bar bar = map.bars().get(at);
    Off off = new Off(print - bar.number(), isVerified(bar));
    boolean judged = bar.evidence().filter(e -> !e.numbers().isEmpty()).isPresent();
    boolean named =
        settled.has(bar.id(), Aspect.NUMBER) && bar.label().filter(Marks::isLettered).isPresent();
    if (off.by() == 0 || named) {
      return Optional.empty();
    }
    if (all || !said.filter(off::equals).isPresent()) {
      if (!judged || isVerified(bar)) {
        print(bar, print, more(at, off.by(), printed), reach);
      }
      return asked.contains("number@" + bar.id()) ? Optional.of(off) : Optional.empty();
    }
    return said;
  }

  private Map<Line, Integer> printed() {
    Map<Line, Integer> printed = new HashMap<>();
    for (Page page : map.pages()) {
      for (StaffSystem system : page.systems()) {
        system
            .printedBarNumber()
            .ifPresent(n -> printed.put(new Line(page.index(), system.index()), n));
      }
    }
    return printed;
  }

  /** A line of music. */
  private record Line(int page, int system) {}

  private static Line place(Bar bar) {
    return new Line(bar.page(), bar.system());
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

  /** How many of the lines with a printed number that come next are off by as much. */
  private int more(int at, int by, Map<Line, Integer> printed) {
    List<Bar> bars = map.bars();
    Set<String> starts = Steps.startsOf(map);
    int more = 0;
    for (int i = at + 1; i < bars.size() && !starts.contains(bars.get(i).id()); i++) {
      Integer print = printed.get(place(bars.get(i)));
      if (print != null && !place(bars.get(i)).equals(place(bars.get(i - 1)))) {
        if (print - bars.get(i).number() != by) {
          break;
        }
        more++;
      }
    }
    return more;
  }

  private void print(Bar bar, int print, int more, int reach) {
    String lines =
        switch (more) {
          case 0 -> ".";
          case 1 -> "; the next printed number is off by as much.";
          default -> "; the next " + more + " printed numbers are off by as much.";
        };
    String text =
        "At this line %d is printed, but it counts as %d%s".formatted(print, bar.number(), lines);
    number(bar, PRINT, text, "The printed " + print + " was misread", print, reach);
  }

  /**
   * Where a person changed bars before the print confirms the count, its beginning may be moved.
   */
  private void begins(int start, Set<String> starts, Map<Line, Integer> printed, int reach) {
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
      changed = set.contains(Aspect.SHAPE) || set.contains(Aspect.COUNT) || lineGone(first, bar);
    }
    if (changed) {
      String text =
          "Counting begins at %d here since lines or bars near it were changed; numbers printed further on ask for that."
              .formatted(first.number());
      String stays = first.number() == 0 ? "It begins with a pickup, 0" : "It begins there";
      number(first, BEGINS, text, stays, 1, reach);
    }
  }

  /** Tells whether a person took a line out on the pages from one bar to another. */
  private boolean lineGone(Bar from, Bar to) {
    return settled.removedSystems().stream()
        .anyMatch(r -> r.page() >= from.page() && r.page() <= to.page());
  }

  private void number(Bar bar, String code, String text, String stays, int other, int reach) {
    Map<String, String> set =
        Map.of("kind", "set-number", "bar", bar.id(), "number", Integer.toString(other));
    List<Answer> answers =
        List.of(new Answer(stays, Map.of()), new Answer("This bar is " + other, set));
    Finding finding = Finding.ofBar(severity(bar), Stage.RECKON, bar, code, text, answers, reach);
    // one that is answered leaves room for another that is said at the same bar
    boolean open = all || !settled.isAnswered(finding, map);
    if (open && (asked.add("number@" + bar.id()) || all)) {
      found.add(finding);
    }
  }

  private void add(Bar bar, String code, String text, List<Answer> answers, int reach) {
    found.add(Finding.ofBar(severity(bar), Stage.RECKON, bar, code, text, answers, reach));
  }

  private Severity severity(Bar bar) {
    return isVerified(bar) ? Severity.ERROR : Severity.DOUBT;
  }
}
