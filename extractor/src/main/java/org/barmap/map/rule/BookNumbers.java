package org.barmap.map.rule;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.MusicalNumber;

/**
 * The musical numbers of a book with the music that stands in none of them: where only "No. 2" was
 * named so far, the bars before it are played all the same. They are called "before 2".
 */
public final class BookNumbers {

  private static final String BEFORE = "before ";
  private static final String AFTER = "after ";

  private BookNumbers() {}

  /**
   * Returns the numbers in the order of the book, music that stands in none among them; nothing
   * where the map names no number, for then the book is one piece.
   */
  public static List<MusicalNumber> of(BarMap map) {
    List<MusicalNumber> numbers = new ArrayList<>(map.numbers());
    if (numbers.isEmpty()) {
      return List.of();
    }
    Map<String, Integer> places = new HashMap<>();
    for (int i = 0; i < map.bars().size(); i++) {
      places.putIfAbsent(map.bars().get(i).id(), i);
    }
    boolean[] named = new boolean[map.bars().size()];
    for (MusicalNumber n : numbers) {
      int last = place(n.lastBar(), places);
      for (int i = place(n.firstBar(), places); i >= 0 && i <= last; i++) {
        named[i] = true;
      }
    }
    int from = 0;
    for (int i = 0; i <= named.length; i++) {
      if (i == named.length || named[i]) {
        if (from < i) {
          add(numbers, map.bars().subList(from, i), from, places);
        }
        from = i + 1;
      }
    }
    return List.copyOf(numbers);
  }

  /** Puts bars of no number where they stand: before the number that follows them in the book. */
  private static void add(
      List<MusicalNumber> numbers, List<Bar> bars, int from, Map<String, Integer> places) {
    int at = numbers.size();
    int next = Integer.MAX_VALUE;
    int after = 0;
    for (int i = 0; i < numbers.size(); i++) {
      int first = place(numbers.get(i).firstBar(), places);
      if (first > from && first < next) {
        next = first;
        at = i;
      }
      after = first >= 0 && first < from ? i + 1 : after;
    }
    boolean before = next < Integer.MAX_VALUE || after == 0;
    int place = next < Integer.MAX_VALUE ? at : after;
    String label =
        before ? BEFORE + numbers.get(place).label() : AFTER + numbers.get(place - 1).label();
    numbers.add(
        place,
        new MusicalNumber(
            label,
            "",
            Optional.of(bars.get(0).id()),
            Optional.of(bars.get(bars.size() - 1).id()),
            false));
  }

  private static int place(Optional<String> bar, Map<String, Integer> places) {
    return places.getOrDefault(bar.orElse(""), -1);
  }

  /** Returns how a number is spoken of: "No. 7", "before No. 2"; empty where it has no label. */
  public static String spoken(String label) {
    for (String where : List.of(BEFORE, AFTER)) {
      if (label.startsWith(where) && label.length() > where.length()) {
        return where + "No. " + label.substring(where.length());
      }
    }
    return label.isEmpty() ? "" : "No. " + label;
  }
}
