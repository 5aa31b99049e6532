package org.barmap.edit.draft;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/**
 * What a correction settled.
 *
 * @param bars by bar id, what of it people have set, before and after
 * @param verifiedPages pages verified and no longer verified
 * @param dismissed doubts answered and open again
 * @param removedSystems systems said not to be there, if that changed
 * @param tacetNumbers tacet numbers added and removed
 */
@JsonInclude(JsonInclude.Include.NON_EMPTY)
public record SettledChange(
    Map<String, Swap<Set<Aspect>>> bars,
    Members<Integer> verifiedPages,
    Members<String> dismissed,
    Optional<Swap<List<Settled.RemovedSystem>>> removedSystems,
    Members<String> tacetNumbers) {

  /** Reads absent keys as empty. */
  public SettledChange {
    bars = bars == null ? Map.of() : Map.copyOf(bars);
    verifiedPages = verifiedPages == null ? Members.none() : verifiedPages;
    dismissed = dismissed == null ? Members.none() : dismissed;
    removedSystems = removedSystems == null ? Optional.empty() : removedSystems;
    tacetNumbers = tacetNumbers == null ? Members.none() : tacetNumbers;
  }

  /**
   * Members a set gained and lost.
   *
   * @param <T> kind of member
   */
  public record Members<T extends Comparable<T>>(Set<T> gained, Set<T> lost) {

    /** Reads absent sets as empty. */
    public Members {
      gained = gained == null ? new TreeSet<T>() : new TreeSet<T>(gained);
      lost = lost == null ? new TreeSet<T>() : new TreeSet<T>(lost);
    }

    static <T extends Comparable<T>> Members<T> none() {
      return new Members<T>(new TreeSet<T>(), new TreeSet<T>());
    }

    static <T extends Comparable<T>> Members<T> between(Set<T> before, Set<T> after) {
      Set<T> gained = new HashSet<>(after);
      gained.removeAll(before);
      Set<T> lost = new HashSet<>(before);
      lost.removeAll(after);
      return new Members<>(gained, lost);
    }

    Set<T> apply(Set<T> set) {
      Set<T> now = new HashSet<>(set);
      now.removeAll(lost);
      now.addAll(gained);
      return now;
    }

    Members<T> reversed() {
      return new Members<>(lost, gained);
    }
  }

  /** Returns what differs; empty when nothing does. */
  static Optional<SettledChange> between(Settled before, Settled after) {
    if (before.equals(after)) {
      return Optional.empty();
    }
    Map<String, Swap<Set<Aspect>>> bars = new HashMap<>();
    Set<String> ids = new HashSet<>(before.bars().keySet());
    ids.addAll(after.bars().keySet());
    for (String id : ids) {
      if (!before.of(id).equals(after.of(id))) {
        bars.put(id, new Swap<>(before.of(id), after.of(id)));
      }
    }
    return Optional.of(
        new SettledChange(
            bars,
            Members.between(before.verifiedPages(), after.verifiedPages()),
            Members.between(before.dismissed(), after.dismissed()),
            before.removedSystems().equals(after.removedSystems())
                ? Optional.empty()
                : Optional.of(new Swap<>(before.removedSystems(), after.removedSystems())),
            Members.between(before.tacetNumbers(), after.tacetNumbers())));
  }

  SettledChange reversed() {
    Map<String, Swap<Set<Aspect>>> back = new HashMap<>();
    bars.forEach((id, swap) -> back.put(id, swap.reversed()));
    return new SettledChange(
        back,
        verifiedPages.reversed(),
        dismissed.reversed(),
        removedSystems.map(Swap::reversed),
        tacetNumbers.reversed());
  }

  Settled apply(Settled settled) {
    Map<String, Set<Aspect>> now = new HashMap<>(settled.bars());
    bars.forEach((id, swap) -> now.put(id, swap.after()));
    return new Settled(
        now,
        verifiedPages.apply(settled.verifiedPages()),
        dismissed.apply(settled.dismissed()),
        removedSystems.map(Swap::after).orElse(settled.removedSystems()),
        tacetNumbers.apply(settled.tacetNumbers()));
  }
}
