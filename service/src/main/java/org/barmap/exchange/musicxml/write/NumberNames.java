package org.barmap.exchange.musicxml.write;

import java.util.HashMap;
import java.util.Map;
import org.barmap.map.BarMap;
import org.barmap.map.MusicalNumber;
import org.barmap.map.rule.BookNumbers;

/** What musical numbers are called: number and title, since books label them inconsistently. */
final class NumberNames {

  private NumberNames() {}

  /**
   * Returns "No. 7: Low Tide", or "No. 7" without a title. With a colon, for "No. 4 A Boat" may be
   * 4A as well.
   */
  static String of(MusicalNumber number) {
    String title = number.title().strip();
    return BookNumbers.spoken(number.label()) + (title.isEmpty() ? "" : ": " + title);
  }

  /** Returns the names of the numbers that begin at bars, by bar id. */
  static Map<String, String> atBars(BarMap map) {
    Map<String, String> names = new HashMap<>();
    for (MusicalNumber number : map.numbers()) {
      number.firstBar().ifPresent(id -> names.put(id, of(number)));
    }
    return names;
  }
}
