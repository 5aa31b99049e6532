package org.barmap.edit.draft;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.MusicalNumber;

/** Fits musical numbers to bars that go away. */
public final class Trimming {

  private Trimming() {}

  /** Returns the musical numbers without some bars; one that loses all its bars goes. */
  public static List<MusicalNumber> without(BarMap map, Set<String> gone) {
    List<MusicalNumber> numbers = new ArrayList<>();
    for (MusicalNumber n : map.numbers()) {
      List<Bar> left = map.barsOf(n).stream().filter(b -> !gone.contains(b.id())).toList();
      if (n.firstBar().isEmpty()) {
        numbers.add(n);
      } else if (!left.isEmpty()) {
        numbers.add(
            n.withBars(Optional.of(left.get(0).id()), Optional.of(left.get(left.size() - 1).id())));
      }
    }
    return numbers;
  }
}
