package org.barmap.plan.change;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.MusicalNumber;
import org.barmap.map.rule.AlikeEndings;
import org.barmap.map.rule.BookNumbers;

/**
 * One musical number as written, its bars counted through in slots: a multi-bar rest of 8 has eight
 * slots, every other entry one.
 *
 * @param label as the book calls it; empty for a book without numbers
 * @param title may be empty
 * @param tacet printed as tacet
 * @param bars its entries in reading order
 * @param starts slot of each entry's first bar
 * @param slots how many bars are written
 * @param alike its endings that are numbered like others
 */
public record WrittenNumber(
    String label,
    String title,
    boolean tacet,
    List<Bar> bars,
    int[] starts,
    int slots,
    AlikeEndings alike) {

  /** Counts the slots of a list of bars. */
  public static WrittenNumber of(String label, String title, boolean tacet, List<Bar> bars) {
    int[] starts = new int[bars.size()];
    int slots = 0;
    for (int i = 0; i < starts.length; i++) {
      starts[i] = slots;
      slots += bars.get(i).count();
    }
    return new WrittenNumber(
        label, title, tacet, List.copyOf(bars), starts, slots, AlikeEndings.of(bars));
  }

  /**
   * Returns the numbers of a book, with the music that stands in none of them; one without a label
   * where the map names none.
   */
  public static List<WrittenNumber> all(BarMap map) {
    if (map.numbers().isEmpty()) {
      return List.of(of("", map.book().title(), false, map.bars()));
    }
    var places = new java.util.HashMap<String, Integer>();
    for (int i = 0; i < map.bars().size(); i++) {
      places.putIfAbsent(map.bars().get(i).id(), i);
    }
    List<WrittenNumber> all = new ArrayList<>();
    for (MusicalNumber number : BookNumbers.of(map)) {
      int first = places.getOrDefault(number.firstBar().orElse(""), -1);
      int last = places.getOrDefault(number.lastBar().orElse(""), -1);
      List<Bar> bars = first < 0 || last < first ? List.of() : map.bars().subList(first, last + 1);
      all.add(of(number.label(), number.title(), number.tacet(), bars));
    }
    return List.copyOf(all);
  }

  /** Returns the index of the entry that holds a slot. */
  public int entryAt(int slot) {
    int i = java.util.Arrays.binarySearch(starts, slot);
    return i >= 0 ? i : -i - 2;
  }

  /** Returns the entry that holds a slot. */
  public Bar barAt(int slot) {
    return bars.get(entryAt(slot));
  }

  /**
   * Returns how a player calls the bar in a slot: its label, or its number; where a number occurs
   * twice, with its ending.
   */
  public String nameAt(int slot) {
    Bar bar = barAt(slot);
    int offset = slot - starts[entryAt(slot)];
    Optional<String> label = bar.label().filter(l -> bar.count() == 1);
    String name = label.orElse(Integer.toString(bar.number() + offset));
    return bar.ending().isEmpty() ? name : alike.called(bar, name);
  }

  /** Returns how the number is spoken of: "No. 7", or "the book" where it has no label. */
  public String spoken() {
    return label.isEmpty() ? "the book" : BookNumbers.spoken(label);
  }
}
