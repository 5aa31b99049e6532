package org.barmap.edit;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.draft.Resettling;
import org.barmap.edit.draft.Settled;
import org.barmap.edit.draft.Trimming;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Finding;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Page;

/** Takes pages out of a book, or puts them in another order. */
public final class Repaging {

  private Repaging() {}

  /**
   * Returns the draft with its pages under other indices, in their order.
   *
   * @param indices by old index, the new one; a page that is absent is taken out with its bars
   */
  public static Draft apply(Draft draft, Map<Integer, Integer> indices) {
    Set<String> gone = new HashSet<>();
    List<Bar> bars = new ArrayList<>();
    for (Bar bar : draft.map().bars()) {
      Integer index = indices.get(bar.page());
      if (index == null) {
        gone.add(bar.id());
      } else {
        bars.add(bar.toBuilder().page(index).build());
      }
    }
    bars.sort(Comparator.comparingInt(Bar::page));
    List<MusicalNumber> numbers = Trimming.without(draft.map(), gone);
    BarMap map =
        new BarMap(
            draft.map().format(),
            draft.map().book(),
            pages(draft.map().pages(), indices),
            numbers,
            bars,
            findings(draft.map().findings(), indices, gone));
    Draft moved = Draft.of(map.withBars(bars)).with(settled(draft.settled(), indices, gone));
    return Resettling.judged(moved.withNumbers(inOrder(moved)));
  }

  private static List<Page> pages(List<Page> pages, Map<Integer, Integer> indices) {
    return pages.stream()
        .filter(p -> indices.containsKey(p.index()))
        .map(p -> p.withIndex(indices.getOrDefault(p.index(), p.index())))
        .sorted(Comparator.comparingInt(Page::index))
        .toList();
  }

  private static List<Finding> findings(
      List<Finding> findings, Map<Integer, Integer> indices, Set<String> gone) {
    return findings.stream()
        .filter(f -> f.bar().filter(gone::contains).isEmpty())
        .filter(f -> f.page().map(indices::containsKey).orElse(true))
        .map(f -> f.page().map(p -> f.onPage(indices.getOrDefault(p, p))).orElse(f))
        .toList();
  }

  private static Settled settled(Settled old, Map<Integer, Integer> indices, Set<String> gone) {
    Settled now = old;
    for (String id : gone) {
      now = now.without(id);
    }
    Set<Integer> verified = new TreeSet<>();
    old.verifiedPages().stream()
        .filter(indices::containsKey)
        .forEach(p -> verified.add(indices.getOrDefault(p, p)));
    List<Settled.RemovedSystem> removed =
        old.removedSystems().stream()
            .filter(r -> indices.containsKey(r.page()))
            .map(
                r ->
                    new Settled.RemovedSystem(
                        indices.getOrDefault(r.page(), r.page()), r.outline()))
            .toList();
    return now.withVerifiedPages(verified)
        .withRemovedSystems(removed)
        .movingPages(p -> Optional.ofNullable(indices.get(p)));
  }

  /** Returns the numbers by where they start; a number runs to the bar before the next one. */
  private static List<MusicalNumber> inOrder(Draft draft) {
    List<MusicalNumber> numbers = new ArrayList<>();
    List<MusicalNumber> tacet = new ArrayList<>();
    for (MusicalNumber n : draft.map().numbers()) {
      (n.firstBar().isPresent() ? numbers : tacet).add(n);
    }
    numbers.sort(Comparator.comparingInt(n -> draft.map().indexOf(n.firstBar().orElse(""))));
    for (int i = 0; i < numbers.size(); i++) {
      MusicalNumber n = numbers.get(i);
      int next =
          i + 1 < numbers.size()
              ? draft.map().indexOf(numbers.get(i + 1).firstBar().orElse(""))
              : draft.map().bars().size();
      int first = draft.map().indexOf(n.firstBar().orElse(""));
      int last = Math.min(next - 1, Math.max(first, draft.map().indexOf(n.lastBar().orElse(""))));
      numbers.set(
          i,
          n.withBars(
              n.firstBar(), Optional.of(draft.map().bars().get(Math.max(first, last)).id())));
    }
    return placed(draft.map().numbers(), numbers, tacet);
  }

  /** Puts tacet numbers behind the number they followed before. */
  private static List<MusicalNumber> placed(
      List<MusicalNumber> old, List<MusicalNumber> numbers, List<MusicalNumber> tacet) {
    List<MusicalNumber> all = new ArrayList<>(numbers);
    for (MusicalNumber t : tacet) {
      int was = old.indexOf(t);
      Optional<String> behind = was == 0 ? Optional.empty() : Optional.of(old.get(was - 1).label());
      int at = was == 0 ? 0 : all.size();
      for (int i = 0; i < all.size(); i++) {
        if (behind.filter(all.get(i).label()::equals).isPresent()) {
          at = i + 1;
        }
      }
      all.add(at, t);
    }
    return all;
  }
}
