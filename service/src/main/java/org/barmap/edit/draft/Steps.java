package org.barmap.edit.draft;

import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.MusicalNumber;
import org.barmap.map.rule.AlikeEndings;

/**
 * How the numbers of a map go on from bar to bar.
 *
 * @param numbers by bar id, its number
 * @param steps by bar id, how far its number is off from counting on; absent at the start of a
 *     musical number
 * @param starts ids of bars at which a musical number, or the book, starts
 * @param back by the id of a later ending's first bar, that of the ending it is numbered like
 */
public record Steps(
    Map<String, Integer> numbers,
    Map<String, Integer> steps,
    Set<String> starts,
    Map<String, String> back) {

  /** Reads them off a draft; numbers set by a person count as in step. */
  public static Steps of(Draft draft) {
    Steps made =
        new Steps(new HashMap<>(), new HashMap<>(), startsOf(draft.map()), new HashMap<>());
    List<Bar> bars = draft.map().bars();
    AlikeEndings.of(draft.map())
        .earlier()
        .forEach((to, from) -> made.back.put(bars.get(to).id(), bars.get(from).id()));
    Optional<Bar> last = Optional.empty();
    for (Bar bar : bars) {
      made.numbers.put(bar.id(), bar.number());
      if (last.isEmpty()) {
        made.starts.add(bar.id());
      } else if (!made.starts.contains(bar.id())) {
        int step = bar.number() - last.get().nextNumber();
        boolean byHand = draft.settled().has(bar.id(), Aspect.NUMBER);
        made.steps.put(bar.id(), byHand ? 0 : step);
      }
      last = Optional.of(bar);
    }
    return made;
  }

  /** Returns them under other ids; bars without another id are left out. */
  public Steps renamed(Map<String, String> idOf) {
    Steps made = new Steps(new HashMap<>(), new HashMap<>(), new HashSet<>(), new HashMap<>());
    idOf.forEach(
        (from, to) -> {
          if (numbers.containsKey(from)) {
            made.numbers.put(to, numbers.get(from));
          }
          if (steps.containsKey(from)) {
            made.steps.put(to, steps.get(from));
          }
          if (starts.contains(from)) {
            made.starts.add(to);
          }
          Optional.ofNullable(back.get(from))
              .flatMap(b -> Optional.ofNullable(idOf.get(b)))
              .ifPresent(b -> made.back.put(to, b));
        });
    return made;
  }

  /** Takes over those of some bars from another map. */
  public void putAll(Set<String> bars, Steps other) {
    for (String bar : bars) {
      numbers.remove(bar);
      steps.remove(bar);
      starts.remove(bar);
      back.remove(bar);
      if (other.numbers.containsKey(bar)) {
        numbers.put(bar, other.numbers.get(bar));
      }
      if (other.steps.containsKey(bar)) {
        steps.put(bar, other.steps.get(bar));
      }
      if (other.starts.contains(bar)) {
        starts.add(bar);
      }
      if (other.back.containsKey(bar)) {
        back.put(bar, other.back.get(bar));
      }
    }
  }

  /** Returns the ids of the bars at which musical numbers start. */
  public static Set<String> startsOf(BarMap map) {
    Set<String> starts = new HashSet<>();
    map.numbers().stream()
        .map(MusicalNumber::firstBar)
        .flatMap(Optional::stream)
        .forEach(starts::add);
    return starts;
  }
}
