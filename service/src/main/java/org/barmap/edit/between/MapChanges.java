package org.barmap.edit.between;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.draft.Settled;
import org.barmap.edit.kind.Saying;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Origin;
import org.barmap.map.Page;

/** What is different between two maps of one book. */
public final class MapChanges {

  private static final String NUMBERS = "Musical numbers begin or end at other bars";

  private final BarMap before;
  private final BarMap after;
  private final Draft old;
  private final Draft now;
  private final List<MapChange> changes = new ArrayList<>();

  private MapChanges(BarMap before, BarMap after) {
    this.before = before;
    this.after = after;
    old = bare(before);
    now = bare(after);
  }

  private static Draft bare(BarMap map) {
    return new Draft(map, Settled.NOTHING, List.of());
  }

  /**
   * Returns it in the order in which it makes the earlier map into the later one: pages, bars that
   * came, went or were moved, corrections, and what they can't say. How sure a reading was of a
   * bar, and whether somebody has looked at it, is no difference.
   */
  public static List<MapChange> between(BarMap before, BarMap after) {
    MapChanges changes = new MapChanges(before, after);
    changes.find();
    return List.copyOf(changes.changes);
  }

  private void find() {
    if (!before.book().equals(after.book())) {
      String name = after.book().title() + ", " + after.book().part();
      changes.add(MapChange.ofMap("The book is called " + name, Optional.empty()));
    }
    pages();
    BarMap placed = placed();
    Retold retold = new Retold(placed, after);
    BarMap made = retold.tell();
    changes.addAll(retold.told());
    left(made);
  }

  private void pages() {
    Map<Integer, Page> was = new HashMap<>();
    before.pages().forEach(p -> was.put(p.index(), p));
    for (Page page : after.pages()) {
      Page then = was.remove(page.index());
      if (then == null) {
        page(page.index(), " is new");
      } else if (then.width() != page.width()
          || then.height() != page.height()
          || !then.source().equals(page.source())) {
        page(page.index(), " is another picture");
      } else if (!then.systems().equals(page.systems())) {
        page(page.index(), ": lines of music were added, taken away or moved");
      }
    }
    was.keySet().stream().sorted().forEach(p -> page(p, " is gone"));
  }

  private void page(int page, String what) {
    changes.add(MapChange.ofMap("Page " + page + what, Optional.of(page)));
  }

  /** The earlier map with the bars of the later one, each where it is there. */
  private BarMap placed() {
    Map<String, Bar> was = new LinkedHashMap<>(before.barsById());
    List<Bar> bars = new ArrayList<>();
    for (Bar bar : after.bars()) {
      Optional<Bar> then = Optional.ofNullable(was.remove(bar.id()));
      // a bar's name is looked for through the whole map: only where it is said
      if (then.isEmpty()) {
        String name = Saying.sentence(Saying.bar(now, bar.id()));
        changes.add(MapChange.ofBar(name + " is new", then, Optional.of(bar)));
      } else if (!isThere(then.get(), bar)) {
        String name = Saying.sentence(Saying.bar(now, bar.id()));
        String place = name + " lies elsewhere, on page " + bar.page();
        changes.add(MapChange.ofBar(place, then, Optional.of(at(then.get(), bar))));
      }
      bars.add(then.map(b -> at(b, bar)).orElse(bar));
    }
    for (Bar gone : was.values()) {
      String name = Saying.sentence(Saying.bar(old, gone.id()));
      changes.add(MapChange.ofBar(name + " is gone", Optional.of(gone), Optional.empty()));
    }
    return new BarMap(
        after.format(), after.book(), after.pages(), numbersWithin(bars), bars, List.of());
  }

  private static boolean isThere(Bar then, Bar bar) {
    return then.page() == bar.page()
        && then.system() == bar.system()
        && then.outline().equals(bar.outline());
  }

  private static Bar at(Bar then, Bar bar) {
    return isThere(then, bar)
        ? then
        : then.toBuilder().page(bar.page()).system(bar.system()).outline(bar.outline()).build();
  }

  /** Musical numbers that begin or end at bars that are gone can't be corrected. */
  private List<MusicalNumber> numbersWithin(List<Bar> bars) {
    Set<String> there = new HashSet<>();
    bars.forEach(b -> there.add(b.id()));
    boolean whole =
        before.numbers().stream()
            .allMatch(
                n ->
                    n.firstBar().filter(b -> !there.contains(b)).isEmpty()
                        && n.lastBar().filter(b -> !there.contains(b)).isEmpty());
    if (!whole) {
      changes.add(MapChange.ofMap(NUMBERS, Optional.empty()));
    }
    return whole ? before.numbers() : after.numbers();
  }

  private void left(BarMap made) {
    if (!made.numbers().equals(after.numbers())) {
      changes.add(MapChange.ofMap(NUMBERS, Optional.empty()));
    }
    Map<String, Bar> reached = made.barsById();
    for (Bar bar : after.bars()) {
      Bar then = reached.getOrDefault(bar.id(), bar);
      if (!seen(then).equals(seen(bar))) {
        String name = Saying.sentence(Saying.bar(now, bar.id()));
        changes.add(MapChange.ofBar(name + " is another one", Optional.of(then), Optional.of(bar)));
      }
    }
  }

  /** A bar without how it came to be so. */
  private static Bar seen(Bar bar) {
    return bar.toBuilder().confidence(1).origin(Origin.VERIFIED).evidence(Optional.empty()).build();
  }
}
