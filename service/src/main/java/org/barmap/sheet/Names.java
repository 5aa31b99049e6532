package org.barmap.sheet;

import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.MusicalNumber;
import org.barmap.map.rule.AlikeEndings;

/** What bars and numbers are called. */
final class Names {
  private final Map<String, Bar> bars;
  private final AlikeEndings endings;
  private final Map<String, String> titles = new HashMap<>();

  Names(BarMap map) {
    this.bars = map.barsById();
    this.endings = AlikeEndings.of(map);
    for (MusicalNumber number : map.numbers()) {
      titles.putIfAbsent(number.label(), number.title());
    }
  }

  /** Returns "7 Low Tide", always number and title, as books label numbers inconsistently. */
  String number(String label) {
    String title = titles.getOrDefault(label, "");
    String no = label.isEmpty() ? "" : "No. " + label;
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

  /** Returns the last bar of an entry. */
  String lastBar(String id) {
    Bar bar = bars.get(id);
    return bar == null || bar.count() == 1
        ? bar(id)
        : endings.called(bar, Integer.toString(bar.number() + bar.count() - 1));
  }
}
