package org.barmap.exchange;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.exchange.table.CsvFile;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.MusicalNumber;
import org.barmap.plan.KeptNote;

/**
 * The misprints a player found, for whoever hired the book out: only what a person said. A printed
 * number or count that a person contradicted is none by itself, as the map doesn't tell a misprint
 * from a sign that was misread.
 */
public final class Errata {
  private static final List<String> HEAD =
      List.of("musical number", "title", "page", "line", "bar", "misprint", "noted on");

  private Errata() {}

  /**
   * One misprint.
   *
   * @param number label of the number; empty where none is named
   * @param title of the number; may be empty
   * @param page page index; empty where no bar is known
   * @param system line of music on that page, from 1; empty where no bar is known
   * @param bar as a player calls it; empty for a whole number
   * @param text what is wrong, as it was said
   * @param day when it was noted, "2026-11-28"; empty where unknown
   */
  public record Misprint(
      String number,
      String title,
      Optional<Integer> page,
      Optional<Integer> system,
      Optional<String> bar,
      String text,
      Optional<String> day) {}

  /** Returns the misprints among the notes of a plan, in the order of the book. */
  public static List<Misprint> of(BarMap map, List<KeptNote> notes) {
    Map<String, Bar> bars = map.barsById();
    Map<String, Integer> places = new HashMap<>();
    map.bars().forEach(b -> places.putIfAbsent(b.id(), places.size()));
    Map<String, Integer> numbers = new HashMap<>();
    Map<String, String> titles = new HashMap<>();
    for (MusicalNumber number : map.numbers()) {
      numbers.putIfAbsent(number.label(), numbers.size());
      titles.putIfAbsent(number.label(), number.title());
    }
    List<KeptNote> found = new ArrayList<>(notes.stream().filter(KeptNote::errata).toList());
    found.sort(
        Comparator.comparingInt((KeptNote n) -> numbers.getOrDefault(n.number(), -1))
            .thenComparingInt(n -> n.at().map(a -> places.getOrDefault(a, -1)).orElse(-1)));
    return found.stream()
        .map(
            n -> {
              Optional<Bar> bar = n.at().flatMap(a -> Optional.ofNullable(bars.get(a)));
              return new Misprint(
                  n.number(),
                  titles.getOrDefault(n.number(), ""),
                  bar.map(Bar::page),
                  bar.map(Bar::system),
                  n.bar(),
                  n.text(),
                  n.when().map(w -> w.split("T", 2)[0]));
            })
        .toList();
  }

  /** Writes them as a table: CSV after RFC 4180. */
  public static void write(List<Misprint> misprints, Appendable out) throws IOException {
    CsvFile.line(out, HEAD);
    for (Misprint one : misprints) {
      CsvFile.line(
          out,
          List.of(
              one.number(),
              one.title(),
              one.page().map(String::valueOf).orElse(""),
              one.system().map(String::valueOf).orElse(""),
              one.bar().orElse(""),
              one.text(),
              one.day().orElse("")));
    }
  }
}
