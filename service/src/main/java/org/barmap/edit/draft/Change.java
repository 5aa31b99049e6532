package org.barmap.edit.draft;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.barmap.map.Bar;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Page;
import org.barmap.map.StaffSystem;

/**
 * What a correction changed, as values before and after; it can be applied and reverted.
 *
 * <p>Where a later reading has changed a value meanwhile, reverting leaves that value alone.
 *
 * @param bars bar entries made, removed or changed
 * @param numbering bar entries of which only the number changed
 * @param systems by page index, systems changed
 * @param numbers musical numbers, if they changed
 * @param settled what people have settled, if that changed
 */
@JsonInclude(JsonInclude.Include.NON_EMPTY)
public record Change(
    List<BarChange> bars,
    List<Numbering> numbering,
    Map<Integer, Swap<List<StaffSystem>>> systems,
    Optional<Swap<List<MusicalNumber>>> numbers,
    Optional<SettledChange> settled) {

  /** Reads absent keys as empty. */
  public Change {
    bars = bars == null ? List.of() : List.copyOf(bars);
    numbering = numbering == null ? List.of() : List.copyOf(numbering);
    systems = systems == null ? Map.of() : Map.copyOf(systems);
    numbers = numbers == null ? Optional.empty() : numbers;
    settled = settled == null ? Optional.empty() : settled;
  }

  /**
   * One bar entry.
   *
   * @param before absent when it was made
   * @param after absent when it was removed
   * @param follows id of the entry it stands behind, in the map it stands in; absent for the first
   */
  public record BarChange(Optional<Bar> before, Optional<Bar> after, Optional<String> follows) {

    /** Reads absent keys as empty. */
    public BarChange {
      before = before == null ? Optional.empty() : before;
      after = after == null ? Optional.empty() : after;
      follows = follows == null ? Optional.empty() : follows;
    }

    private BarChange reversed() {
      return new BarChange(after, before, follows);
    }
  }

  /** One bar entry's number. */
  public record Numbering(String bar, int before, int after) {}

  /** Returns the values in which two drafts of one book differ. */
  public static Change between(Draft before, Draft after) {
    Map<String, Bar> old = before.map().barsById();
    Map<String, Bar> now = after.map().barsById();
    List<BarChange> bars = new ArrayList<>();
    List<Numbering> numbering = new ArrayList<>();
    Optional<String> last = Optional.empty();
    for (Bar bar : before.map().bars()) {
      if (!now.containsKey(bar.id())) {
        bars.add(new BarChange(Optional.of(bar), Optional.empty(), last));
      }
      last = Optional.of(bar.id());
    }
    last = Optional.empty();
    for (Bar bar : after.map().bars()) {
      Optional<Bar> was = Optional.ofNullable(old.get(bar.id()));
      boolean same = was.isPresent() && was.get() == bar; // as most bars of a book are
      if (was.isEmpty()) {
        bars.add(new BarChange(was, Optional.of(bar), last));
      } else if (!same && was.get().toBuilder().number(bar.number()).build().equals(bar)) {
        if (was.get().number() != bar.number()) {
          numbering.add(new Numbering(bar.id(), was.get().number(), bar.number()));
        }
      } else if (!same) {
        bars.add(new BarChange(was, Optional.of(bar), last));
      }
      last = Optional.of(bar.id());
    }
    return new Change(
        bars,
        numbering,
        systemsBetween(before, after),
        before.map().numbers().equals(after.map().numbers())
            ? Optional.empty()
            : Optional.of(new Swap<>(before.map().numbers(), after.map().numbers())),
        SettledChange.between(before.settled(), after.settled()));
  }

  private static Map<Integer, Swap<List<StaffSystem>>> systemsBetween(Draft before, Draft after) {
    Map<Integer, Swap<List<StaffSystem>>> systems = new LinkedHashMap<>();
    for (Page page : after.map().pages()) {
      Lookup.page(before, page.index())
          .filter(p -> !p.systems().equals(page.systems()))
          .ifPresent(p -> systems.put(p.index(), new Swap<>(p.systems(), page.systems())));
    }
    return systems;
  }

  /** Returns the change back. */
  public Change reversed() {
    List<BarChange> back = new ArrayList<>();
    bars.forEach(b -> back.add(b.reversed()));
    Map<Integer, Swap<List<StaffSystem>>> pages = new HashMap<>();
    systems.forEach((page, swap) -> pages.put(page, swap.reversed()));
    return new Change(
        back,
        numbering.stream().map(n -> new Numbering(n.bar, n.after, n.before)).toList(),
        pages,
        numbers.map(Swap::reversed),
        settled.map(SettledChange::reversed));
  }

  /** Returns the draft with the change taken back. */
  public Draft revert(Draft draft) {
    return reversed().apply(draft);
  }

  /** Returns the draft with the change made. */
  public Draft apply(Draft draft) {
    List<Page> pages =
        draft.map().pages().stream()
            .map(
                p -> {
                  Swap<List<StaffSystem>> swap = systems.get(p.index());
                  return swap == null || !swap.before().equals(p.systems())
                      ? p
                      : p.withSystems(swap.after());
                })
            .toList();
    List<MusicalNumber> now =
        numbers
            .filter(s -> s.before().equals(draft.map().numbers()))
            .map(Swap::after)
            .orElse(draft.map().numbers());
    Settled settledNow = settled.map(s -> s.apply(draft.settled())).orElse(draft.settled());
    return draft.withPages(pages).withBars(barsOf(draft)).withNumbers(now).with(settledNow);
  }

  private List<Bar> barsOf(Draft draft) {
    Map<String, Bar> from = new HashMap<>();
    Map<String, Bar> to = new HashMap<>();
    Set<String> gone = new HashSet<>();
    for (BarChange c : bars) {
      c.before.ifPresent(b -> from.put(b.id(), b));
      c.after.ifPresent(b -> to.put(b.id(), b));
      if (c.after.isEmpty()) {
        gone.add(c.before.orElseThrow().id());
      }
    }
    Map<String, Numbering> numbered = new HashMap<>();
    numbering.forEach(n -> numbered.put(n.bar, n));
    List<Bar> result = new ArrayList<>();
    for (Bar bar : draft.map().bars()) {
      if (gone.contains(bar.id())) {
        continue;
      }
      Bar before = from.get(bar.id());
      Bar after = to.get(bar.id());
      Bar merged = before == null || after == null ? bar : Parts.merge(bar, before, after);
      Numbering number = numbered.get(bar.id());
      if (number != null && number.before == bar.number()) {
        merged = merged.toBuilder().number(number.after).build();
      }
      result.add(merged);
    }
    insert(result);
    return result;
  }

  private void insert(List<Bar> into) {
    for (BarChange c : bars) {
      if (c.before.isPresent() || c.after.isEmpty()) {
        continue;
      }
      Bar bar = c.after.get();
      boolean there = into.stream().anyMatch(b -> b.id().equals(bar.id()));
      if (!there) {
        into.add(position(into, c), bar);
      }
    }
  }

  private static int position(List<Bar> bars, BarChange change) {
    for (int i = 0; i < bars.size() && change.follows.isPresent(); i++) {
      if (bars.get(i).id().equals(change.follows.get())) {
        return i + 1;
      }
    }
    Bar wanted = change.after.orElseThrow();
    int at = 0;
    while (at < bars.size() && Parts.READING_ORDER.compare(bars.get(at), wanted) < 0) {
      at++;
    }
    return at;
  }
}
