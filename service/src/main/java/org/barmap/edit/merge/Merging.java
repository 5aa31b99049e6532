package org.barmap.edit.merge;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.barmap.edit.draft.Aspect;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.draft.Lookup;
import org.barmap.edit.draft.Recount;
import org.barmap.edit.draft.Resettling;
import org.barmap.edit.draft.Steps;
import org.barmap.edit.draft.Systems;
import org.barmap.edit.kind.Held;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Finding;
import org.barmap.map.Page;
import org.barmap.map.StaffSystem;

/**
 * Lays a new reading under what people have set.
 *
 * <p>A verified page stays as it is. A system whose barlines a person changed stays as it is; in
 * any other, the bars read take the ids of the bars they lie over, and whatever a person set of
 * those. Systems a person removed stay removed, systems a person added stay. Nothing a person set
 * is lost: where a bar they set something of has no counterpart in the new reading, its whole
 * system stays.
 */
public final class Merging {

  private final Draft now;
  private final BarMap fresh;
  private final Set<String> usedIds = new HashSet<>();
  private final Map<String, String> idOf = new HashMap<>();

  /** In systems that stay as they are: by id in the reading, the bar that begins there. */
  private final Map<String, String> startOf = new HashMap<>();

  private final List<Page> pages = new ArrayList<>();
  private final List<Bar> bars = new ArrayList<>();

  /** Bars that stay as they are in the draft. */
  private final Set<String> kept = new HashSet<>();

  /** Bars on verified pages. */
  private final Set<String> verified = new HashSet<>();

  private Merging(Draft now, BarMap fresh) {
    this.now = now;
    this.fresh = fresh;
    now.map().bars().forEach(b -> usedIds.add(b.id()));
  }

  /**
   * Returns the draft after a new reading.
   *
   * @param now the book's draft, what people settled included
   * @param fresh the new reading of the whole book; page indices as in the draft
   */
  public static Draft read(Draft now, BarMap fresh) {
    return new Merging(now, fresh).run();
  }

  private Draft run() {
    for (Page page : fresh.pages()) {
      Optional<Page> old = Lookup.page(now, page.index());
      if (old.isPresent() && now.settled().verifiedPages().contains(page.index())) {
        keepPage(old.get().withByHand(page.byHand()), page.folio());
      } else {
        mergePage(page, old.map(Page::systems).orElse(List.of()));
      }
    }
    BarMap merged =
        new BarMap(
            fresh.format(),
            now.map().book(),
            pages,
            List.of(),
            bars,
            fresh.findings().stream().map(this::translated).toList());
    Draft numbered =
        fitted(MergedNumbers.of(now, fresh, Draft.of(merged).with(now.settled()), this::startOf));
    Draft draft = carried(numbered);
    Steps steps = Steps.of(Draft.of(fresh)).renamed(idOf);
    steps.putAll(kept, Steps.of(now));
    return Resettling.settled(Recount.numbered(steps, draft, verified));
  }

  /**
   * Returns the bar at which a musical number starts that the reading lets start at another one.
   */
  private Optional<String> startOf(String id) {
    return Optional.ofNullable(startOf.get(id)).or(() -> Optional.ofNullable(idOf.get(id)));
  }

  /** Ends keys where numbers start that the reading does not know. */
  private Draft fitted(Draft draft) {
    Set<String> read = new HashSet<>();
    Steps.startsOf(fresh).forEach(id -> startOf(id).ifPresent(read::add));
    return Held.KEY.fitted(read, draft, verified);
  }

  /** Carries meters and keys set by people on, as when they were set. */
  private Draft carried(Draft draft) {
    List<Bar> carried = new ArrayList<>(draft.map().bars());
    for (int i = 0; i < carried.size(); i++) {
      for (Held<?> held : List.of(Held.METER, Held.KEY)) {
        if (draft.settled().has(carried.get(i).id(), held.aspect())) {
          held.carry(carried, i, draft, verified);
        }
      }
    }
    return draft.withBars(carried);
  }

  /** Keeps a page that a person checked; nobody is asked about its printed number. */
  private void keepPage(Page page, Optional<Integer> folio) {
    pages.add(page.withFolio(folio.or(page::folio)));
    for (Bar bar : now.map().bars()) {
      if (bar.page() == page.index()) {
        bars.add(bar);
        kept.add(bar.id());
        verified.add(bar.id());
      }
    }
    List<Bar> before = now.map().bars().stream().filter(b -> b.page() == page.index()).toList();
    for (Bar read : fresh.bars()) {
      if (read.page() == page.index()) {
        closest(read, before).ifPresent(b -> idOf.put(read.id(), b.id()));
        beginning(read, before);
      }
    }
  }

  private record SystemBars(StaffSystem system, List<Bar> bars) {}

  private void mergePage(Page page, List<StaffSystem> old) {
    List<SystemBars> lines = new ArrayList<>();
    Set<Integer> met = new HashSet<>();
    for (StaffSystem system : page.systems()) {
      List<Bar> read =
          fresh.bars().stream()
              .filter(b -> b.page() == page.index() && b.system() == system.index())
              .toList();
      if (isRemoved(page.index(), system)) {
        continue;
      }
      Optional<StaffSystem> match =
          old.stream()
              .filter(s -> !met.contains(s.index()))
              .filter(s -> Systems.overlap(s.outline(), system.outline()))
              .findFirst();
      match.ifPresent(s -> met.add(s.index()));
      List<Bar> before = match.map(s -> now.barsIn(page.index(), s.index())).orElse(List.of());
      lines.add(
          match.isPresent()
              ? line(match.get(), before, system, read)
              : new SystemBars(system, renamed(read)));
    }
    for (StaffSystem system : old) {
      List<Bar> before = now.barsIn(page.index(), system.index());
      boolean set = before.stream().anyMatch(b -> !now.settled().of(b.id()).isEmpty());
      if (!met.contains(system.index()) && set) {
        lines.add(new SystemBars(system, keep(before)));
      }
    }
    arrange(page, lines);
  }

  /** Puts the lines of a page in order from top to bottom. */
  private void arrange(Page page, List<SystemBars> lines) {
    lines.sort(Comparator.comparingDouble((SystemBars l) -> Systems.middle(l.system.outline())));
    List<StaffSystem> systems = new ArrayList<>();
    for (SystemBars line : lines) {
      int index = systems.size() + 1;
      systems.add(Systems.withIndex(line.system, index));
      for (Bar bar : line.bars) {
        bars.add(bar.toBuilder().page(page.index()).system(index).build());
      }
    }
    pages.add(page.withSystems(systems));
  }

  private boolean isRemoved(int page, StaffSystem system) {
    return now.settled().removedSystems().stream()
        .anyMatch(r -> r.page() == page && Systems.overlap(r.outline(), system.outline()));
  }

  private SystemBars line(StaffSystem old, List<Bar> before, StaffSystem system, List<Bar> read) {
    Map<String, Bar> matches = new HashMap<>();
    Set<String> taken = new HashSet<>();
    for (Bar bar : read) {
      closest(bar, before.stream().filter(b -> !taken.contains(b.id())).toList())
          .ifPresent(
              b -> {
                matches.put(bar.id(), b);
                taken.add(b.id());
              });
    }
    boolean shaped = before.stream().anyMatch(b -> now.settled().has(b.id(), Aspect.SHAPE));
    boolean lost =
        before.stream()
            .anyMatch(b -> !now.settled().of(b.id()).isEmpty() && !taken.contains(b.id()));
    if (shaped || lost) {
      matches.forEach((id, b) -> idOf.put(id, b.id()));
      read.forEach(b -> beginning(b, before));
      return new SystemBars(old, keep(before));
    }
    List<Bar> made = new ArrayList<>();
    for (Bar bar : read) {
      Bar match = matches.get(bar.id());
      if (match == null) {
        made.addAll(renamed(List.of(bar)));
      } else {
        idOf.put(bar.id(), match.id());
        Set<Aspect> set = now.settled().of(match.id());
        made.add(Carrying.over(match, bar.toBuilder().id(match.id()).build(), set));
      }
    }
    return new SystemBars(system, made);
  }

  private List<Bar> keep(List<Bar> before) {
    before.forEach(b -> kept.add(b.id()));
    return before;
  }

  /** Gives bars that are new in this reading ids nobody else has. */
  private List<Bar> renamed(List<Bar> read) {
    List<Bar> made = new ArrayList<>();
    for (Bar bar : read) {
      String id = bar.id();
      int n = 1;
      while (!usedIds.add(id)) {
        n++;
        id = bar.id() + "." + n;
      }
      idOf.put(bar.id(), id);
      made.add(bar.toBuilder().id(id).build());
    }
    return made;
  }

  /** Returns the bar whose stretch of the system is most nearly the same. */
  private static Optional<Bar> closest(Bar bar, List<Bar> candidates) {
    Optional<Bar> best = Optional.empty();
    double most = 0.6;
    for (Bar other : candidates) {
      double common =
          Math.min(Systems.right(bar.outline()), Systems.right(other.outline()))
              - Math.max(Systems.left(bar.outline()), Systems.left(other.outline()));
      double all =
          Math.max(Systems.right(bar.outline()), Systems.right(other.outline()))
              - Math.min(Systems.left(bar.outline()), Systems.left(other.outline()));
      boolean level = Systems.overlap(bar.outline(), other.outline());
      if (level && common / Math.max(1, all) > most) {
        most = common / all;
        best = Optional.of(other);
      }
    }
    return best;
  }

  /** Notes which bar of those that stay begins where a bar of the reading does. */
  private void beginning(Bar read, List<Bar> candidates) {
    candidates.stream()
        .filter(b -> Systems.level(b.outline(), read.outline()))
        .min(
            Comparator.comparingDouble(
                b -> Math.abs(Systems.left(b.outline()) - Systems.left(read.outline()))))
        .ifPresent(b -> startOf.put(read.id(), b.id()));
  }

  private Finding translated(Finding f) {
    return new Finding(
        f.severity(),
        f.stage(),
        f.page(),
        f.system(),
        f.bar().map(id -> idOf.getOrDefault(id, id)),
        f.outline(),
        f.code(),
        f.text(),
        f.answers().stream().map(this::translated).toList(),
        f.weight());
  }

  private Finding.Answer translated(Finding.Answer answer) {
    Map<String, String> correction = new HashMap<>(answer.correction());
    for (String key : List.of("bar", "to", "before")) {
      correction.computeIfPresent(key, (k, id) -> idOf.getOrDefault(id, id));
    }
    return new Finding.Answer(answer.label(), correction);
  }
}
