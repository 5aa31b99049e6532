package org.barmap.plan.cases;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.UnaryOperator;
import org.barmap.map.Bar;
import org.barmap.map.BarBuilder;
import org.barmap.map.BarMap;
import org.barmap.map.Barline;
import org.barmap.map.Book;
import org.barmap.map.Content;
import org.barmap.map.Evidence;
import org.barmap.map.Finding;
import org.barmap.map.Key;
import org.barmap.map.Meter;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Origin;
import org.barmap.map.Outline;
import org.barmap.map.Severity;
import org.barmap.map.Stage;

/** A book while its notation is read, from left to right. */
final class BookSketch {

  private static final Outline NOWHERE = Outline.box(0, 0, 1, 1);

  private final List<Bar> bars = new ArrayList<>();
  private final List<PageFacts> pages = new ArrayList<>();
  private final List<MusicalNumber> numbers = new ArrayList<>();
  private final List<Finding> findings = new ArrayList<>();
  private Pending pending = new Pending();
  private int system;
  private int next = 1;
  private Optional<String> label = Optional.empty();
  private Optional<Meter> meter = Optional.empty();
  private Optional<Key> key = Optional.empty();
  private Origin origin = Origin.VERIFIED;
  private List<Integer> ending = List.of();
  private boolean newLine = true;
  private boolean newNumber;
  private boolean repeat;

  Pending pending() {
    return pending;
  }

  void page(Map<String, String> facts) {
    int index = pages.size() + 1;
    boolean unread = facts.containsKey("unread");
    pages.add(
        new PageFacts(
            index,
            Optional.ofNullable(facts.get("folio")).map(Integer::valueOf),
            Optional.ofNullable(facts.get("picture")),
            facts.getOrDefault("leaf", "bound"),
            unread));
    if (unread) {
      findings.add(
          Finding.ofPage(Severity.ERROR, Stage.PAGE, index, "unread", "could not be read"));
    }
    system = 0;
    newLine = true;
  }

  void line() {
    newLine = true;
  }

  void number(String called, String title, boolean tacet) {
    numbers.add(new MusicalNumber(called, title, Optional.empty(), Optional.empty(), tacet));
    newNumber = !tacet;
    newLine = true;
    next = 1;
    key = Optional.empty();
    ending = List.of();
  }

  void origin(Origin value) {
    origin = value;
  }

  void meter(Meter value) {
    meter = Optional.of(value);
  }

  void key(Key value) {
    key = Optional.of(value);
  }

  void ending(List<Integer> value) {
    ending = value;
  }

  void called(int number) {
    next = number;
  }

  /** A label; a bar 24A is number 24 once more, one called X1 has the number before it. */
  void called(String name) {
    String digits = name.replaceAll("^(\\d*).*$", "$1");
    next = digits.isEmpty() ? Math.max(0, next - 1) : Integer.parseInt(digits);
    label = Optional.of(name);
  }

  /** A forward repeat: at the end of the bar before, or at the start of a line's first bar. */
  void repeatStarts() {
    if (newLine) {
      repeat = true;
    } else {
      mend(
          b ->
              b.endBarline(
                  b.build().endBarline() == Barline.REPEAT_END
                      ? Barline.REPEAT_BOTH
                      : Barline.REPEAT_START));
    }
  }

  /** Changes the bar before. */
  void mend(UnaryOperator<BarBuilder> how) {
    if (bars.isEmpty()) {
      throw new IllegalArgumentException("a sign that belongs to a bar before, but there is none");
    }
    int last = bars.size() - 1;
    bars.set(last, how.apply(bars.get(last).toBuilder()).build());
  }

  void bars(char kind, int many, Optional<Double> start, Optional<Double> end, String sure) {
    int entries = kind == 'R' ? 1 : many;
    for (int i = 0; i < entries; i++) {
      Optional<Double> silent = i == 0 ? start : Optional.empty();
      bar(kind, kind == 'R' ? many : 1, silent, i == entries - 1 ? end : Optional.empty(), sure);
    }
  }

  private void bar(
      char kind, int count, Optional<Double> start, Optional<Double> end, String sure) {
    if (pages.isEmpty()) {
      page(Map.of());
    }
    boolean first = newLine;
    system += first ? 1 : 0;
    newLine = false;
    BarBuilder bar =
        Bar.builder("b" + (bars.size() + 1), pages.size(), system, NOWHERE)
            .number(next)
            .label(label)
            .count(count)
            .meter(meter)
            .key(key)
            .startBarline(first ? Barline.NONE : bars.get(bars.size() - 1).endBarline())
            .content(content(kind, count))
            .silentStart(start)
            .silentEnd(end)
            .ending(ending)
            .signs(List.copyOf(pending.signs()))
            .words(List.copyOf(pending.words()))
            .rehearsal(pending.mark())
            .origin(origin);
    if (repeat) {
      bar.startBarline(Barline.REPEAT_START);
    }
    bars.add(sure(bar, sure).build());
    begun();
    next += count;
  }

  /** What belonged to this bar alone is used up; meter and key hold on without being printed. */
  private void begun() {
    String id = bars.get(bars.size() - 1).id();
    if (!numbers.isEmpty() && !numbers.get(numbers.size() - 1).tacet()) {
      int last = numbers.size() - 1;
      MusicalNumber n = numbers.get(last);
      Optional<String> firstBar = newNumber ? Optional.of(id) : n.firstBar();
      numbers.set(
          last, new MusicalNumber(n.label(), n.title(), firstBar, Optional.of(id), n.tacet()));
    }
    newNumber = false;
    repeat = false;
    label = Optional.empty();
    meter = meter.map(m -> m.withPrinted(false));
    key = key.map(k -> k.withPrinted(false));
    pending = new Pending();
  }

  private static Content content(char kind, int count) {
    return switch (kind) {
      case 'r' -> Content.REST;
      case 'R' -> count > 1 ? Content.MULTI_REST : Content.REST;
      case '%' -> Content.BAR_REPEAT;
      default -> Content.MUSIC;
    };
  }

  /** "0.4" is how sure a bar is, "8=0.5,3=0.4" what its numeral may be, the first one taken. */
  private static BarBuilder sure(BarBuilder bar, String sure) {
    if (!sure.contains("=")) {
      return bar.confidence(Double.parseDouble(sure));
    }
    List<Evidence.Alternative> readings =
        Arrays.stream(sure.split(","))
            .map(r -> r.split("=", 2))
            .map(r -> new Evidence.Alternative(r[0], Double.parseDouble(r[1])))
            .toList();
    return bar.confidence(readings.get(0).probability())
        .evidence(Optional.of(new Evidence(readings, List.of(), 1)));
  }

  CaseBook book() {
    if (!pending.isEmpty()) {
      throw new IllegalArgumentException("words, a mark or a sign before no bar");
    }
    BarMap map =
        new BarMap(
            BarMap.FORMAT,
            new Book("Saltmarsh", "Bass"),
            SketchedPages.of(pages, bars),
            numbers,
            SketchedPages.laidOut(bars),
            findings);
    return new CaseBook(map, pages);
  }
}
