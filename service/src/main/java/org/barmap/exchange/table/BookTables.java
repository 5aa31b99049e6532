package org.barmap.exchange.table;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Key;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Navigation;
import org.barmap.map.Word;
import org.barmap.plan.Plan;
import org.barmap.plan.change.ShowChanges;

/**
 * The tables of a book.
 *
 * @param map its bars
 * @param plan the plan of them
 * @param changes what the plan goes by
 */
public record BookTables(BarMap map, Plan plan, ShowChanges changes) {

  /** A kind of table. */
  public enum Kind {
    /** One row a bar entry as drawn. */
    BARS,
    /** One row a musical number, in the order of the night. */
    NUMBERS,
    /** One row a change, those that are switched off too. */
    CHANGES,
    /** One row a page turn, in the order they come. */
    TURNS,
    /** One row a long rest, in the order they come. */
    RESTS,
    /** One row a mark to write, in the order of the pages. */
    MARKS;

    /** Returns its word in addresses and commands. */
    public String word() {
      return name().toLowerCase(Locale.ROOT);
    }

    /** Returns the kind of a word. */
    public static Optional<Kind> of(String word) {
      return List.of(values()).stream().filter(k -> k.word().equals(word)).findFirst();
    }
  }

  private static final List<String> BAR_HEAD =
      List.of(
          "musical number",
          "title",
          "page",
          "system",
          "bar",
          "bars",
          "label",
          "meter",
          "key",
          "rehearsal",
          "content",
          "start barline",
          "end barline",
          "ending",
          "times",
          "signs",
          "words",
          "confidence",
          "origin");

  /** Returns a table. */
  public Table of(Kind kind) {
    PlanTables plans = new PlanTables(map, plan);
    return switch (kind) {
      case BARS -> bars(map);
      case NUMBERS -> plans.numbers();
      case CHANGES -> ChangeTable.of(changes);
      case TURNS -> plans.turns();
      case RESTS -> plans.rests();
      case MARKS -> plans.marks();
    };
  }

  /** Returns all of them, as the sheets of a workbook. */
  public List<Table> all() {
    return List.of(Kind.values()).stream().map(this::of).toList();
  }

  /** Returns the bars of a map; tacet numbers have no row. */
  public static Table bars(BarMap map) {
    Map<String, MusicalNumber> starts = new HashMap<>();
    map.numbers().forEach(n -> n.firstBar().ifPresent(b -> starts.putIfAbsent(b, n)));
    List<List<Cell>> rows = new ArrayList<>();
    String label = "";
    String title = "";
    for (Bar bar : map.bars()) {
      MusicalNumber begun = starts.get(bar.id());
      if (begun != null) {
        label = begun.label();
        title = begun.title();
      }
      rows.add(bar(bar, label, title));
    }
    return new Table("Bars", BAR_HEAD, rows);
  }

  private static List<Cell> bar(Bar bar, String label, String title) {
    return List.of(
        Cell.of(label),
        Cell.of(title),
        Cell.of(bar.page()),
        Cell.of(bar.system()),
        Cell.of(bar.number()),
        Cell.of(bar.count()),
        Cell.words(bar.label()),
        Cell.words(bar.meter().map(m -> m.beats() + "/" + m.unit())),
        Cell.words(bar.key().map(Key::says)),
        Cell.words(bar.rehearsal().map(r -> r.text())),
        Cell.of(bar.content().word()),
        Cell.of(bar.startBarline().word()),
        Cell.of(bar.endBarline().word()),
        Cell.of(bar.ending().stream().map(String::valueOf).collect(Collectors.joining(" "))),
        Cell.whole(bar.times()),
        Cell.of(bar.signs().stream().map(Navigation::word).collect(Collectors.joining(" "))),
        Cell.of(bar.words().stream().map(Word::text).collect(Collectors.joining(" | "))),
        new Cell.Measured(bar.confidence()),
        Cell.of(bar.origin().name().toLowerCase(Locale.ROOT)));
  }
}
