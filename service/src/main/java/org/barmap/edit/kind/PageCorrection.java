package org.barmap.edit.kind;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.barmap.edit.draft.Contradictions;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.draft.Lookup;
import org.barmap.edit.draft.Ruler;
import org.barmap.edit.draft.Settled;
import org.barmap.edit.draft.Systems;
import org.barmap.edit.draft.Trimming;
import org.barmap.map.Bar;
import org.barmap.map.Finding;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Origin;
import org.barmap.map.Outline;
import org.barmap.map.Page;
import org.barmap.map.Point;
import org.barmap.map.StaffSystem;

/** Corrections of pages, systems and doubts. */
public sealed interface PageCorrection extends Correction {

  /** A person has looked at the whole page and says it is right, or takes that back. */
  record VerifyPage(int page, boolean verified) implements PageCorrection {

    @Override
    public List<String> validate(Draft draft) {
      return noPage(draft, page);
    }

    @Override
    public Draft applyTo(Draft draft) {
      Set<Integer> pages = new HashSet<>(draft.settled().verifiedPages());
      if (verified) {
        pages.add(page);
      } else {
        pages.remove(page);
      }
      List<Bar> bars =
          draft.map().bars().stream()
              .map(b -> b.page() == page ? b.toBuilder().origin(origin(draft, b)).build() : b)
              .toList();
      Draft made = draft.withBars(bars).with(draft.settled().withVerifiedPages(pages));
      // what the page says against itself was looked at, too; another contradiction is asked
      return verified
          ? made.with(made.settled().withDismissed(Contradictions.claims(made, page)))
          : made;
    }

    private Origin origin(Draft draft, Bar bar) {
      if (verified) {
        return Origin.VERIFIED;
      }
      return draft.settled().of(bar.id()).isEmpty() ? Origin.READ : Origin.CORRECTED;
    }

    @Override
    public String says(Draft draft) {
      return "Page " + page + (verified ? " verified" : " no longer verified");
    }
  }

  /** There is a system the reading missed; it starts as one bar. */
  record AddSystem(int page, Optional<Outline> outline) implements PageCorrection {

    /** Reads an absent outline as empty. */
    public AddSystem {
      outline = outline == null ? Optional.empty() : outline;
    }

    @Override
    public List<String> validate(Draft draft) {
      List<String> problems = new ArrayList<>(noPage(draft, page));
      if (outline.filter(AddSystem::isWhole).isEmpty()) {
        problems.add("A system needs four corners, at least 20 pixels apart");
      } else if (problems.isEmpty()) {
        Page p = Lookup.page(draft, page).orElseThrow();
        if (corners(outline.get()).anyMatch(c -> !isOn(p, c))) {
          problems.add("The system is not on the page");
        }
        if (p.systems().stream().anyMatch(s -> Systems.overlap(s.outline(), outline.get()))) {
          problems.add("There is a system already");
        }
      }
      return problems;
    }

    private static boolean isOn(Page page, Point p) {
      return p.x() >= 0 && p.y() >= 0 && p.x() <= page.width() && p.y() <= page.height();
    }

    private static Stream<Point> corners(Outline o) {
      return Stream.of(o.topLeft(), o.topRight(), o.bottomRight(), o.bottomLeft());
    }

    private static boolean isWhole(Outline o) {
      boolean all =
          o.topLeft() != null
              && o.topRight() != null
              && o.bottomRight() != null
              && o.bottomLeft() != null;
      return all
          && Ruler.left(o).rightOf(o.rightMiddle()) >= 20
          && o.bottomLeft().y() - o.topLeft().y() >= 20
          && o.bottomRight().y() - o.topRight().y() >= 20;
    }

    @Override
    public Draft applyTo(Draft draft) {
      Outline place = outline.orElseThrow().rounded();
      Page p = Lookup.page(draft, page).orElseThrow();
      int index = p.systems().stream().mapToInt(StaffSystem::index).max().orElse(0) + 1;
      double space = place.leftMiddle().distance(place.topLeft()) / 2;
      StaffSystem made = new StaffSystem(index, place, space, Optional.empty(), 1, List.of());
      List<StaffSystem> systems = new ArrayList<>(p.systems());
      systems.add(made);
      Draft arranged = Systems.arrange(draft, page, systems);
      int now =
          Lookup.page(arranged, page).orElseThrow().systems().stream()
              .filter(s -> s.outline().equals(place))
              .mapToInt(StaffSystem::index)
              .findFirst()
              .orElseThrow();
      Bar bar = OneBar.corrected(Bar.builder(Lookup.freshId(draft), page, now, place).build());
      int at = Systems.position(arranged, page, now);
      Draft put = Splitting.insert(arranged, bar, at);
      List<Bar> bars = put.map().bars();
      return at == 0
          ? put
          : put.withNumbers(
              Splitting.lastBarMoves(put.map().numbers(), bars.get(at - 1).id(), bar.id()));
    }

    @Override
    public String says(Draft draft) {
      return "System added on page " + page;
    }
  }

  /** There is no system: what was read there is not the player's music. */
  record RemoveSystem(int page, int system) implements PageCorrection {

    @Override
    public List<String> validate(Draft draft) {
      return Lookup.system(draft, page, system).isEmpty()
          ? List.of("There is no system " + system + " on page " + page)
          : List.of();
    }

    @Override
    public Draft applyTo(Draft draft) {
      Page p = Lookup.page(draft, page).orElseThrow();
      StaffSystem gone = Lookup.system(draft, page, system).orElseThrow();
      Set<String> ids = new HashSet<>();
      draft.barsIn(page, system).forEach(b -> ids.add(b.id()));
      List<MusicalNumber> numbers = Trimming.without(draft.map(), ids);
      Settled settled = draft.settled();
      for (String id : ids) {
        settled = settled.without(id);
      }
      List<Settled.RemovedSystem> removed = new ArrayList<>(settled.removedSystems());
      removed.add(new Settled.RemovedSystem(page, gone.outline()));
      List<StaffSystem> systems = p.systems().stream().filter(s -> s.index() != system).toList();
      Draft without =
          Systems.arrange(draft, page, systems)
              .withNumbers(numbers)
              .with(settled.withRemovedSystems(removed));
      List<Bar> bars = draft.map().bars();
      int at = (int) bars.stream().takeWhile(b -> !ids.contains(b.id())).count();
      if (at > 0) {
        for (Held<?> held : List.of(Held.METER, Held.KEY)) {
          if (ids.stream().anyMatch(id -> draft.settled().has(id, held.aspect()))) {
            without = heldOver(without, bars.get(at - 1).id(), held);
          }
        }
      }
      return without;
    }

    /** A signature a person set goes with the system it was set in: what held before holds on. */
    private static Draft heldOver(Draft draft, String before, Held<?> held) {
      List<Bar> now = new ArrayList<>(draft.map().bars());
      held.carry(now, draft.map().indexOf(before), draft, Set.of());
      return draft.withBars(now);
    }

    @Override
    public String says(Draft draft) {
      return "System " + system + " removed from page " + page;
    }
  }

  /** A doubt is answered: it is right as it is. */
  record DismissDoubt(String code, Optional<String> bar, Optional<Integer> page)
      implements PageCorrection {

    /** Reads absent keys as empty. */
    public DismissDoubt {
      code = code == null ? "" : code;
      bar = bar == null ? Optional.empty() : bar;
      page = page == null ? Optional.empty() : page;
    }

    @Override
    public List<String> validate(Draft draft) {
      return asked(draft).isEmpty() && !wasAnswered(draft)
          ? List.of("There is no such doubt")
          : List.of();
    }

    /** Said twice is said once: two clicks, or two people at the same doubt. */
    private boolean wasAnswered(Draft draft) {
      String key = code + "@" + bar.orElseGet(() -> "page " + page.orElse(0));
      return draft.settled().dismissed().stream()
          .anyMatch(k -> k.equals(key) || k.startsWith(key + "#"));
    }

    private List<Finding> asked(Draft draft) {
      return draft.open().stream()
          .filter(f -> f.code().equals(code))
          .filter(f -> bar.isPresent() ? f.bar().equals(bar) : f.page().equals(page))
          .toList();
    }

    @Override
    public Draft applyTo(Draft draft) {
      return draft.answered(asked(draft));
    }

    @Override
    public String says(Draft draft) {
      String where = bar.map(b -> Saying.bar(draft, b)).orElseGet(() -> "page " + page.orElse(0));
      return "Doubt answered at " + where;
    }
  }

  private static List<String> noPage(Draft draft, int page) {
    return Lookup.page(draft, page).isEmpty() ? List.of("There is no page " + page) : List.of();
  }
}
