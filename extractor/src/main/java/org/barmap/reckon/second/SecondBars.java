package org.barmap.reckon.second;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Evidence;
import org.barmap.map.Finding;
import org.barmap.map.Finding.Answer;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Point;
import org.barmap.map.SecondReading.Measure;
import org.barmap.reckon.cells.Marks;
import org.barmap.reckon.compare.Aligner;
import org.barmap.reckon.set.ReckonSettings;
import org.barmap.reckon.set.SecondSettings;
import org.barmap.reckon.write.FindingWriter;
import org.barmap.reckon.write.SecondDifference;

/**
 * Says where a second reading has bars that the page lacks, or lacks bars that the page has: one
 * finding for each run, at its place.
 *
 * <p>Not told are numbers that the player rests in and the book says so, and repeats that one of
 * the two writes out.
 */
public final class SecondBars {

  private static final SecondSettings.Bars SET = ReckonSettings.STANDARD.second().bars();

  /** The kind of doubt where bars differ. */
  public static final String CODE = "second-bars";

  private final BarMap map;
  private final List<Bar> bars;
  private final List<Measure> measures;
  private final List<Aligner.Taken> taken;
  private final Set<Integer> starts;

  private SecondBars(BarMap map, List<Measure> measures, List<Aligner.Taken> taken) {
    this.map = map;
    this.bars = map.bars();
    this.measures = measures;
    this.taken = taken;
    this.starts = SecondAlignment.starts(map);
  }

  /**
   * One place where the bars differ.
   *
   * @param from first entry that has no partner; also where extra bars stand before
   * @param to the entry after the last of them
   * @param extra first measure without an entry
   * @param extraTo the measure after the last of them
   */
  private record Gap(int from, int to, int extra, int extraTo) {}

  /** Compares a settled map with what its entries take of the second reading. */
  public static List<Finding> differing(
      BarMap settled, List<Measure> measures, List<Aligner.Taken> taken) {
    SecondBars all = new SecondBars(settled, measures, taken);
    List<Finding> out = new ArrayList<>();
    for (Gap gap : all.gaps()) {
      all.finding(gap).ifPresent(out::add);
    }
    return out;
  }

  private List<Gap> gaps() {
    List<Gap> out = new ArrayList<>();
    int from = 0;
    int at = 0;
    for (int i = 0; i <= bars.size(); i++) {
      boolean end = i == bars.size();
      if (end || taken.get(i).size() > 0) {
        int to = end ? measures.size() : taken.get(i).from();
        if (i > from || to > at) {
          out.add(new Gap(from, i, at, to));
        }
        from = i + 1;
        at = end ? to : taken.get(i).to();
      }
    }
    return out;
  }

  private Optional<Finding> finding(Gap gap) {
    int lone = written(gap.from(), gap.to());
    List<Measure> extra =
        measures.subList(gap.extra(), gap.extraTo()).stream()
            .filter(SecondNumbers::isCounted)
            .toList();
    if (bars.isEmpty() || (lone == 0 && extra.isEmpty())) {
      return Optional.empty();
    }
    if (lone == 0) {
      return more(gap, extra);
    }
    return Optional.of(extra.isEmpty() ? fewer(gap, lone) : others(gap, lone, extra.size()));
  }

  private int written(int from, int to) {
    return bars.subList(from, to).stream().mapToInt(Bar::count).sum();
  }

  private Optional<Finding> more(Gap gap, List<Measure> extra) {
    int i = gap.from();
    int n = extra.size();
    boolean rests = extra.stream().allMatch(Measure::rest);
    boolean edge = i == 0 || i == bars.size();
    if (edge && n > SET.beyond()) {
      int at = i == 0 ? 0 : i - 1;
      String text =
          "The second reading has "
              + n
              + " bars "
              + (i == 0 ? "before" : "after")
              + " these pages.";
      return Optional.of(told(at, text));
    }
    if (starts.contains(i) && i > 0 && (rests || n > SET.beyond())) {
      return rests && isTacetBefore(i) ? Optional.empty() : Optional.of(number(i, n, rests));
    }
    if (WrittenOut.bySource(bars, measures, taken, i, n)) {
      return Optional.empty();
    }
    int host = i == bars.size() || (i > 0 && !bars.get(i - 1).isRest()) ? i - 1 : i;
    host = starts.contains(i) && i > 0 ? i - 1 : host;
    Bar bar = bars.get(host);
    List<Answer> answers = new ArrayList<>(List.of(SecondDifference.PAGE));
    if (n == 1 && !bar.isRest()) {
      String text = "The second reading has one bar more here: a barline may be missing.";
      Point middle = middle(bar);
      answers.add(FindingWriter.isBarline("A barline is missing here", bar, middle));
      return Optional.of(doubt(host, text, answers));
    }
    String text = "The second reading has " + FindingWriter.bars(n) + " more here";
    if (i > 0 && i < bars.size() && !starts.contains(i)) {
      Bar next = bars.get(i);
      int number = next.number() + n;
      text += ", between " + (next.number() - 1) + " and " + next.number();
      answers.add(
          new Answer(
              "Bars are missing here, the next is " + number,
              Map.of("kind", "set-number", "bar", next.id(), "number", Integer.toString(number))));
    }
    return Optional.of(doubt(host, text + ".", answers));
  }

  /** Bars of the source that stand between two musical numbers. */
  private Finding number(int i, int n, boolean rests) {
    String text =
        "The second reading has "
            + n
            + " bars before "
            + named(i).orElse("this one")
            + " that these pages lack"
            + (rests ? "; you rest in all of them." : ": a page may be missing.");
    List<Answer> answers = new ArrayList<>(List.of(SecondDifference.PAGE));
    Optional<String> label = rests ? between(i) : Optional.empty();
    label.ifPresent(
        l ->
            answers.add(
                new Answer(
                    "No. " + l + " is tacet",
                    Map.of(
                        "kind",
                        "add-tacet-number",
                        "before",
                        bars.get(i).id(),
                        "label",
                        l,
                        "title",
                        ""))));
    return doubt(i, text, answers);
  }

  private Finding fewer(Gap gap, int lone) {
    int i = gap.from();
    boolean whole = starts.contains(i) && (gap.to() == bars.size() || starts.contains(gap.to()));
    if (whole) {
      List<String> names = new ArrayList<>();
      for (int k = i; k < gap.to(); k++) {
        if (starts.contains(k)) {
          named(k).ifPresent(names::add);
        }
      }
      return told(i, "The second reading has nothing of " + listed(names) + ".");
    }
    Bar bar = bars.get(i);
    List<Answer> answers = new ArrayList<>(List.of(SecondDifference.PAGE));
    if (gap.to() == i + 1) {
      String text =
          "The second reading has no such "
              + (bar.isRest() && bar.count() > 1
                  ? "rest; the page has " + bar.count() + " bars."
                  : "bar.");
      joined(i).ifPresent(answers::add);
      return doubt(i, text, answers);
    }
    return doubt(i, "The second reading lacks the " + lone + " bars " + range(gap) + ".", answers);
  }

  private Finding others(Gap gap, int lone, int extra) {
    String text =
        "The second reading has "
            + FindingWriter.bars(extra)
            + " where the page has "
            + FindingWriter.bars(lone)
            + ", "
            + range(gap)
            + ".";
    return doubt(gap.from(), text, List.of(SecondDifference.PAGE));
  }

  private String range(Gap gap) {
    int last = gap.to() - 1;
    boolean other = false;
    for (int k = gap.from() + 1; k <= last; k++) {
      other |= starts.contains(k);
    }
    int number = bars.get(last).nextNumber() - 1;
    String of = other ? nameAround(last).map(n -> " of " + n).orElse("") : "";
    return "from here to " + number + of;
  }

  /** Takes away a barline that the source lacks; it joins bars of one line only. */
  private Optional<Answer> joined(int i) {
    Bar bar = bars.get(i);
    String side =
        beside(i, i + 1) && !starts.contains(i + 1)
            ? "end"
            : beside(i, i - 1) && !starts.contains(i) ? "start" : "";
    return side.isEmpty()
        ? Optional.empty()
        : Optional.of(
            new Answer(
                "It is no bar of its own",
                Map.of("kind", "remove-barline", "bar", bar.id(), "side", side)));
  }

  private boolean beside(int i, int k) {
    return k >= 0
        && k < bars.size()
        && bars.get(k).page() == bars.get(i).page()
        && bars.get(k).system() == bars.get(i).system();
  }

  private Optional<String> named(int start) {
    String id = bars.get(start).id();
    return map.numbers().stream()
        .filter(n -> n.firstBar().filter(id::equals).isPresent())
        .map(n -> "No. " + n.label())
        .findFirst();
  }

  private Optional<String> nameAround(int i) {
    int start = i;
    while (start > 0 && !starts.contains(start)) {
      start--;
    }
    return named(start);
  }

  private static String listed(List<String> names) {
    int n = names.size();
    return n < 2
        ? String.join("", names)
        : String.join(", ", names.subList(0, n - 1)) + " and " + names.get(n - 1);
  }

  private int position(int start) {
    String id = bars.get(start).id();
    for (int k = 0; k < map.numbers().size(); k++) {
      if (map.numbers().get(k).firstBar().filter(id::equals).isPresent()) {
        return k;
      }
    }
    return -1;
  }

  private boolean isTacetBefore(int start) {
    int k = position(start);
    return k > 0 && map.numbers().get(k - 1).tacet();
  }

  /** The one label that is free between a number and the one before it; 3 between 2 and 4. */
  private Optional<String> between(int start) {
    int k = position(start);
    if (k < 1) {
      return Optional.empty();
    }
    MusicalNumber before = map.numbers().get(k - 1);
    int a = Marks.number(before.label());
    int b = Marks.number(map.numbers().get(k).label());
    return a >= 0 && b == a + 2 ? Optional.of(Integer.toString(a + 1)) : Optional.empty();
  }

  private static Point middle(Bar bar) {
    return bar.outline().leftMiddle().middle(bar.outline().rightMiddle());
  }

  private Finding doubt(int i, String text, List<Answer> answers) {
    return FindingWriter.doubt(bars.get(i), CODE, text, answers, reach(i));
  }

  /** What says nothing against the page. */
  private Finding told(int i, String text) {
    return FindingWriter.told(bars.get(i), CODE, text);
  }

  /** Bars up to the next place where the print confirms the counting. */
  private double reach(int from) {
    double sum = 0;
    for (int i = from; i < bars.size(); i++) {
      Bar bar = bars.get(i);
      boolean confirmed =
          bar.evidence().map(Evidence::numbers).orElse(List.of()).stream()
              .limit(1)
              .anyMatch(a -> Marks.number(a.text()) == bar.number());
      if (i > from && confirmed) {
        break;
      }
      sum += bar.count();
    }
    return sum;
  }
}
