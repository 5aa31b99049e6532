package org.barmap.edit.merge;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import org.barmap.edit.draft.Aspect;
import org.barmap.edit.draft.Draft;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.MusicalNumber;

/** Musical numbers and bar numbers after a new reading. */
final class MergedNumbers {

  private MergedNumbers() {}

  /** Gives the merged bars their musical numbers: those read, except where a person decided. */
  static Draft of(
      Draft now, BarMap fresh, Draft merged, Function<String, Optional<String>> startOf) {
    Map<String, MusicalNumber> startAt = new HashMap<>();
    Map<String, List<MusicalNumber>> tacetBefore = new HashMap<>();
    List<MusicalNumber> waiting = new ArrayList<>();
    for (MusicalNumber n : fresh.numbers()) {
      String first = first(fresh, n, merged, startOf);
      if (n.firstBar().isEmpty()) {
        waiting.add(n);
      } else if (merged.map().bar(first).isPresent()
          && !now.settled().has(first, Aspect.NUMBER_START)) {
        startAt.put(first, n);
        tacetBefore.put(first, List.copyOf(waiting));
        waiting.clear();
      }
    }
    keepThoseOfPeople(now, merged, startAt, tacetBefore, waiting);
    return merged.withNumbers(listed(merged, startAt, tacetBefore, waiting));
  }

  /** Returns the first bar of a number that is still there. */
  private static String first(
      BarMap fresh, MusicalNumber n, Draft merged, Function<String, Optional<String>> startOf) {
    for (Bar bar : fresh.barsOf(n)) {
      Optional<String> there = startOf.apply(bar.id());
      if (there.isPresent() && merged.map().bar(there.get()).isPresent()) {
        return there.get();
      }
    }
    return "";
  }

  private static void keepThoseOfPeople(
      Draft now,
      Draft merged,
      Map<String, MusicalNumber> startAt,
      Map<String, List<MusicalNumber>> tacetBefore,
      List<MusicalNumber> atEnd) {
    List<MusicalNumber> tacet = new ArrayList<>();
    for (MusicalNumber n : now.map().numbers()) {
      String first = n.firstBar().orElse("");
      boolean byHand = now.settled().has(first, Aspect.NUMBER_START);
      if (n.firstBar().isEmpty() && now.settled().tacetNumbers().contains(n.label())) {
        tacet.add(n);
      } else if (merged.map().bar(first).isPresent() && byHand) {
        startAt.put(first, n);
      }
      if (startAt.containsKey(first) && !tacet.isEmpty()) {
        List<MusicalNumber> all = new ArrayList<>(tacetBefore.getOrDefault(first, List.of()));
        all.addAll(tacet);
        tacetBefore.put(first, all);
        tacet.clear();
      }
    }
    atEnd.addAll(tacet);
  }

  private static List<MusicalNumber> listed(
      Draft merged,
      Map<String, MusicalNumber> startAt,
      Map<String, List<MusicalNumber>> tacetBefore,
      List<MusicalNumber> atEnd) {
    List<MusicalNumber> numbers = new ArrayList<>();
    Optional<String> last = Optional.empty();
    for (Bar bar : merged.map().bars()) {
      MusicalNumber start = startAt.get(bar.id());
      if (start != null) {
        close(numbers, last);
        numbers.addAll(tacetBefore.getOrDefault(bar.id(), List.of()));
        numbers.add(start.withBars(Optional.of(bar.id()), Optional.of(bar.id())));
      }
      last = Optional.of(bar.id());
    }
    close(numbers, last);
    numbers.addAll(atEnd);
    return numbers;
  }

  private static void close(List<MusicalNumber> numbers, Optional<String> last) {
    for (int i = numbers.size() - 1; i >= 0; i--) {
      MusicalNumber n = numbers.get(i);
      if (n.firstBar().isPresent()) {
        numbers.set(i, n.withBars(n.firstBar(), last));
        return;
      }
    }
  }
}
