package org.barmap.edit.merge;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.barmap.edit.draft.Aspect;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.draft.Lookup;
import org.barmap.edit.draft.Settled;
import org.barmap.edit.draft.Systems;
import org.barmap.edit.draft.Trimming;
import org.barmap.edit.merge.LinePairs.Line;
import org.barmap.edit.merge.LinePairs.Pair;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Page;
import org.barmap.map.StaffSystem;

/**
 * A draft after a page was photographed again. The bars of the new picture that match those of the
 * old one take their ids and what people set of them. The page stays verified only when it has the
 * same lines with as many bars as before.
 *
 * @param draft with the new picture's reading laid under it
 * @param kept how many corrections of bars were carried over
 * @param lost how many corrections of the page could not be carried over
 */
public record Retaken(Draft draft, int kept, int lost) {

  /**
   * Carries the corrections of a page over.
   *
   * @param now with the old picture's reading on the page
   * @param page index of the page
   * @param fresh reading of the whole book with the new picture in its place; page indices as in
   *     the draft
   */
  public static Retaken read(Draft now, int page, BarMap fresh) {
    Optional<Page> before = Lookup.page(now, page);
    Optional<Page> after = fresh.pages().stream().filter(p -> p.index() == page).findFirst();
    if (before.isEmpty() || after.isEmpty()) {
      return new Retaken(Merging.read(now, fresh), 0, 0);
    }
    Carry carry = new Carry(now, before.get(), after.get());
    carry.match(lines(fresh, after.get()));
    return new Retaken(Merging.read(carry.prepared(), fresh), carry.kept, carry.lost);
  }

  private static List<Line> lines(BarMap map, Page page) {
    return page.systems().stream()
        .map(
            s ->
                new Line(
                    s.index(),
                    s.outline(),
                    map.bars().stream()
                        .filter(b -> b.page() == page.index() && b.system() == s.index())
                        .toList()))
        .sorted(Comparator.comparingDouble(Line::middle))
        .toList();
  }

  /** The draft on its way: the old page's bars at the places of the new picture. */
  private static final class Carry {

    private final Draft now;
    private final Page before;
    private final Page after;
    private final int page;
    private final List<Bar> carried = new ArrayList<>();
    private final Map<String, Set<Aspect>> set;
    private final List<Settled.RemovedSystem> removed = new ArrayList<>();

    /** Indices in the new reading of systems a person removed. */
    private final Set<Integer> without = new HashSet<>();

    private boolean agrees;
    private int kept;
    private int lost;

    Carry(Draft now, Page before, Page after) {
      this.now = now;
      this.before = before;
      this.after = after;
      this.page = before.index();
      this.set = new TreeMap<>(now.settled().bars());
    }

    void match(List<Line> read) {
      List<Line> old = new ArrayList<>(lines(now.map(), before));
      for (Settled.RemovedSystem r : now.settled().removedSystems()) {
        if (r.page() == page) {
          old.add(new Line(0, r.outline(), List.of()));
        } else {
          removed.add(r);
        }
      }
      old.sort(Comparator.comparingDouble(Line::middle));
      List<Pair<Line>> pairs = LinePairs.lines(old, before, read, after);
      agrees = old.size() == read.size();
      pairs.forEach(this::line);
      long unsaid = old.stream().filter(l -> l.system() == 0).count() - without.size();
      lost += pairs.size() < read.size() ? (int) unsaid : 0;
      Set<String> kept = carried.stream().map(Bar::id).collect(Collectors.toSet());
      for (Bar bar : now.map().bars()) {
        if (bar.page() == page && !kept.contains(bar.id())) {
          lost += now.settled().of(bar.id()).size();
          set.remove(bar.id());
        }
      }
    }

    private void line(Pair<Line> pair) {
      if (pair.old().system() == 0) {
        without.add(pair.read().system());
        removed.add(new Settled.RemovedSystem(page, pair.read().outline()));
        return;
      }
      boolean same = pair.old().bars().size() == pair.read().bars().size();
      agrees &= same;
      for (Pair<Bar> bars : LinePairs.bars(pair.old(), pair.read())) {
        Bar old = bars.old();
        carried.add(
            old.toBuilder().system(pair.read().system()).outline(bars.read().outline()).build());
        Set<Aspect> aspects = EnumSet.noneOf(Aspect.class);
        aspects.addAll(now.settled().of(old.id()));
        // where a person drew a barline is a place in the old picture; as many bars need no drawing
        lost += aspects.remove(Aspect.SHAPE) && !same ? 1 : 0;
        kept += aspects.size();
        set.put(old.id(), aspects);
      }
    }

    /** Returns the draft as if the old page had been read from the new picture. */
    Draft prepared() {
      Map<Integer, Integer> indices = new TreeMap<>();
      List<StaffSystem> systems = new ArrayList<>();
      for (StaffSystem s : after.systems()) {
        if (!without.contains(s.index())) {
          indices.put(s.index(), systems.size() + 1);
          systems.add(Systems.withIndex(s, systems.size() + 1));
        }
      }
      List<Bar> here =
          carried.stream()
              .map(b -> b.toBuilder().system(indices.getOrDefault(b.system(), 1)).build())
              .sorted(
                  Comparator.comparingInt(Bar::system)
                      .thenComparingDouble(b -> Systems.left(b.outline())))
              .toList();
      List<Bar> bars = new ArrayList<>();
      now.map().bars().stream().filter(b -> b.page() < page).forEach(bars::add);
      bars.addAll(here);
      now.map().bars().stream().filter(b -> b.page() > page).forEach(bars::add);
      Set<String> gone = now.map().bars().stream().map(Bar::id).collect(Collectors.toSet());
      bars.forEach(b -> gone.remove(b.id()));
      Page made = after.withIndex(page).withSystems(systems);
      return now.withNumbers(Trimming.without(now.map(), gone))
          .withPages(now.map().pages().stream().map(p -> p.index() == page ? made : p).toList())
          .withBars(bars)
          .with(settled(gone));
    }

    private Settled settled(Set<String> gone) {
      Settled old = now.settled();
      Set<String> dismissed = new HashSet<>(old.dismissed());
      dismissed.removeIf(key -> gone.contains(placeOf(key)));
      Set<Integer> verified = new HashSet<>(old.verifiedPages());
      if (!agrees) {
        verified.remove(page);
      }
      return new Settled(set, verified, dismissed, removed, old.tacetNumbers())
          .movingPages(p -> p == page ? Optional.empty() : Optional.of(p));
    }

    /** The bar in the key of an answered doubt, see {@link Settled#claim}. */
    private static String placeOf(String key) {
      String place = key.substring(key.indexOf('@') + 1);
      int end = place.indexOf('#');
      return end < 0 ? place : place.substring(0, end);
    }
  }
}
