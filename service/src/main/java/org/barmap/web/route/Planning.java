package org.barmap.web.route;

import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.library.BookCard;
import org.barmap.library.ChairSettings;
import org.barmap.library.Library;
import org.barmap.library.PageCard;
import org.barmap.library.PageState;
import org.barmap.library.Settings;
import org.barmap.map.BarMap;
import org.barmap.map.Finding;
import org.barmap.map.Severity;
import org.barmap.map.Stage;
import org.barmap.plan.Plan;
import org.barmap.plan.PlanSettings;
import org.barmap.plan.Planner;
import org.barmap.plan.change.ChangesJson;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.page.FirstPage;
import org.barmap.plan.page.Leaf;
import org.barmap.plan.ready.Chair;
import org.barmap.plan.ready.ReadyTimes;
import org.barmap.plan.show.Showing;
import org.barmap.plan.turn.TurnSettings;
import tools.jackson.databind.node.ObjectNode;

/** Plans of a book as it stands in the library. */
public final class Planning {

  /** A step is answered with its plan, and the pages ask for what follows from the same one. */
  private static final int REMEMBERED = 8;

  private final Library library;

  private final Map<Asked, Plan> lately =
      new LinkedHashMap<>(16, 0.75f, true) {
        @Override
        protected boolean removeEldestEntry(Map.Entry<Asked, Plan> eldest) {
          return size() > REMEMBERED;
        }
      };

  public Planning(Library library) {
    this.library = library;
  }

  /** Returns the plan of a map with some changes, as the book's player turns and counts. */
  public Plan plan(BookCard book, BarMap map, ShowChanges changes) {
    PlanSettings settings = settings(book, library.books().settings(book.id()));
    Asked asked = new Asked(withFailed(book, map), changes, settings);
    synchronized (lately) {
      Plan known = lately.get(asked);
      if (known != null) {
        return known;
      }
    }
    Plan plan = Planner.plan(asked.map, changes, settings);
    synchronized (lately) {
      lately.put(asked, plan);
    }
    return plan;
  }

  /** What a plan follows from; a map is the same only when it is the very one. */
  private record Asked(BarMap map, ShowChanges changes, PlanSettings settings) {

    @Override
    public boolean equals(Object o) {
      return o instanceof Asked a
          && a.map == map
          && a.changes.equals(changes)
          && a.settings.equals(settings);
    }

    @Override
    public int hashCode() {
      return 31 * System.identityHashCode(map) + changes.hashCode();
    }
  }

  /** A page that could not be read is not in the map; the plan must know that it is there. */
  private BarMap withFailed(BookCard book, BarMap map) {
    List<Finding> findings = new ArrayList<>(map.findings());
    for (PageCard page : library.pages().all(book.id())) {
      if (page.state() == PageState.FAILED) {
        findings.add(
            Finding.ofPage(
                Severity.ERROR,
                Stage.PAGE,
                page.index(),
                "page-failed",
                page.finding().orElse("")));
      }
    }
    return findings.size() == map.findings().size() ? map : map.withFindings(findings);
  }

  /** Returns a book's changes. */
  public ShowChanges changes(BookCard book) {
    List<ShowChange> changes =
        library
            .changes()
            .find(book.id())
            .map(v -> v.value().stream().map(Planning::change).toList())
            .orElse(List.of());
    return new ShowChanges(changes);
  }

  /** Returns one change. */
  public static ShowChange change(ObjectNode node) {
    return ChangesJson.readOne(node);
  }

  private PlanSettings settings(BookCard book, Settings s) {
    TurnSettings turns =
        new TurnSettings(
            s.firstPage().flatMap(FirstPage::of),
            leaves(book, s),
            s.turnSeconds(),
            s.quickSeconds(),
            s.memoryBars());
    String today = LocalDate.now(ZoneId.systemDefault()).toString();
    return new PlanSettings(
            s.repeatsAfterJump(), turns, PlanSettings.USUAL.longRestBars(), s.changeSeconds())
        .withChair(chair(s.chair()))
        .withShowing(new Showing(s.version(), Optional.of(today)));
  }

  private static Chair chair(ChairSettings said) {
    ReadyTimes times =
        new ReadyTimes(
            said.bowSeconds(),
            said.muteSeconds(),
            said.reedSeconds(),
            said.retuneSeconds(),
            said.putDownSeconds());
    return new Chair(said.inHand(), said.doublings(), times);
  }

  /** Pages are named by their ids, so that they keep their kind in another order. */
  private Map<Integer, Leaf> leaves(BookCard book, Settings s) {
    Map<Integer, Leaf> leaves = new HashMap<>();
    if (!s.leaves().isEmpty()) {
      for (PageCard page : library.pages().all(book.id())) {
        Leaf.of(s.leaves().getOrDefault(page.id(), ""))
            .filter(l -> l != Leaf.BOUND)
            .ifPresent(l -> leaves.put(page.index(), l));
      }
    }
    return leaves;
  }
}
