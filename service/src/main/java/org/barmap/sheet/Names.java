package org.barmap.sheet;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.exchange.chair.TheirBars;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.MusicalNumber;
import org.barmap.map.rule.AlikeEndings;
import org.barmap.map.rule.BookNumbers;

/** What bars and numbers are called. */
final class Names {
  private static final Pattern SPAN = Pattern.compile("(?:bars? )?(\\w+)(?:[-\u2013](\\w+))?");

  private final Map<String, Bar> bars;
  private final AlikeEndings endings;
  private final Map<String, String> titles = new HashMap<>();
  private final List<Bar> inOrder;
  private final Map<String, Integer> places = new HashMap<>();
  private final Map<String, String> numberOf = new HashMap<>();

  private final Optional<TheirBars> theirs;

  /** Takes the other part's bars, where one lies beside the book. */
  Names(BarMap map, Optional<TheirBars> theirs) {
    this.theirs = theirs;
    this.inOrder = map.bars();
    for (int i = 0; i < inOrder.size(); i++) {
      places.putIfAbsent(inOrder.get(i).id(), i);
    }
    for (MusicalNumber number : BookNumbers.of(map)) {
      int from = number.firstBar().map(f -> places.getOrDefault(f, 0)).orElse(0);
      int to = number.lastBar().map(l -> places.getOrDefault(l, -1)).orElse(-1);
      for (int i = from; i <= to; i++) {
        numberOf.putIfAbsent(inOrder.get(i).id(), number.label());
      }
    }
    this.bars = map.barsById();
    this.endings = AlikeEndings.of(map);
    for (MusicalNumber number : map.numbers()) {
      titles.putIfAbsent(number.label(), number.title());
    }
  }

  /** Returns "7 Low Tide", always number and title, as books label numbers inconsistently. */
  String number(String label) {
    String title = titles.getOrDefault(label, "");
    String no = BookNumbers.spoken(label);
    return title.isEmpty() ? no : (no + "  " + title).strip();
  }

  /** Returns a bar entry of the map. */
  Optional<Bar> entry(String id) {
    return Optional.ofNullable(bars.get(id));
  }

  /** Returns the first bar of an entry as a player calls it, with its rehearsal mark. */
  String bar(String id) {
    Bar bar = bars.get(id);
    if (bar == null) {
      return id;
    }
    String name = bar.label().filter(l -> bar.count() == 1).orElse(Integer.toString(bar.number()));
    return endings.called(bar, name)
        + bar.rehearsal()
            .filter(m -> !m.text().equals(name))
            .map(m -> " [" + m.text() + "]")
            .orElse("");
  }

  /** Returns "Bar 5 to 12", or "Bar 36". */
  String range(String first, String last) {
    String from = bar(first);
    String to = lastBar(last);
    return first.equals(last) && from.equals(to) ? "Bar " + from : "Bar " + from + " to " + to;
  }

  /**
   * Returns what bars are called in the other part, "Director 42 to 57"; empty where the same.
   *
   * @param first id of the first entry, whose first bar is meant
   * @param last id of the last entry, whose last bar is meant
   */
  Optional<String> theirs(String first, String last) {
    Bar from = bars.get(first);
    Bar to = bars.get(last);
    return from == null || to == null
        ? Optional.empty()
        : theirs(numberOf.getOrDefault(first, ""), plain(from, 0), plain(to, to.count() - 1));
  }

  /** Returns the same of bars as a player calls them. */
  Optional<String> theirs(String number, String first, String last) {
    return theirs.flatMap(t -> t.beside(number, first, last));
  }

  /** Returns the first bar of an entry in the other part. */
  Optional<String> theirFirst(String id) {
    return entry(id).flatMap(b -> theirs(numberOf.getOrDefault(id, ""), plain(b, 0), plain(b, 0)));
  }

  /** Returns the last bar of an entry in the other part. */
  Optional<String> theirLast(String id) {
    return entry(id)
        .map(b -> plain(b, b.count() - 1))
        .flatMap(name -> theirs(numberOf.getOrDefault(id, ""), name, name));
  }

  /** Returns bars as a plan says them, "bar 17", "10-11", with the other part's behind. */
  String both(String number, String said) {
    Matcher m = SPAN.matcher(said);
    return m.matches()
        ? said
            + theirs(number, m.group(1), m.group(2) == null ? m.group(1) : m.group(2))
                .map(b -> " [" + b + "]")
                .orElse("")
        : said;
  }

  private static String plain(Bar bar, int k) {
    return bar.label().filter(l -> bar.count() == 1).orElse(Integer.toString(bar.number() + k));
  }

  /** Returns how many bars the book has from one entry to another; 0 where it has not both. */
  int written(String first, String last) {
    Bar from = bars.get(first);
    Bar to = bars.get(last);
    if (from == null || to == null) {
      return 0;
    }
    int start = places.getOrDefault(first, 0);
    int end = places.getOrDefault(last, 0);
    return end < start ? 0 : inOrder.subList(start, end + 1).stream().mapToInt(Bar::count).sum();
  }

  /** Returns "No. 6 bar 101". */
  String barInNumber(String id) {
    String label = numberOf.getOrDefault(id, "");
    return (label.isEmpty() ? "Bar " : BookNumbers.spoken(label) + " bar ") + bar(id);
  }

  /** Returns where an entry stands in the book, 0 for the first. */
  int place(String id) {
    return places.getOrDefault(id, 0);
  }

  /** Returns the last bar of an entry. */
  String lastBar(String id) {
    Bar bar = bars.get(id);
    return bar == null || bar.count() == 1
        ? bar(id)
        : endings.called(bar, Integer.toString(bar.number() + bar.count() - 1));
  }
}
