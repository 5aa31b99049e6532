package org.barmap.web.planned;

import io.javalin.http.Context;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.edit.draft.Draft;
import org.barmap.library.BookCard;
import org.barmap.library.ChairSettings;
import org.barmap.library.Library;
import org.barmap.library.PageCard;
import org.barmap.library.PageState;
import org.barmap.library.Settings;
import org.barmap.library.Versioned;
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

/** Plans of a book as it stands in the library, and its form drawn from them. */
public final class Planning {

  /** Bar entries of all plans that are remembered: some seven of books of 144 pages. */
  private static final long REMEMBERED = 60_000;

  /** What a plan takes without any bar, and each change of it, with its words; in bar entries. */
  private static final long LEAST = 100;

  private static final long OF_CHANGE = 10;

  private final Library library;
  private final Lately<Asked, Shared<Plan>> plans = new Lately<>(REMEMBERED);
  private final Lately<Drawn, Shared<RoadMap>> forms = new Lately<>(REMEMBERED);

  public Planning(Library library) {
    this.library = library;
  }

  /** Forgets the plans of a book; they are worked out again when it is asked for. */
  public void forget(String book) {
    plans.forget(asked -> asked.book.equals(book));
    forms.forget(drawn -> drawn.book.equals(book));
  }

  /** Returns the plan of a map with some changes, as the book's player turns and counts. */
  public Plan plan(BookCard book, BarMap map, ShowChanges changes) {
    return planned(book, map, changes).value();
  }

  private Shared<Plan> planned(BookCard book, BarMap map, ShowChanges changes) {
    return planned(asked(book, map, changes));
  }

  private Shared<Plan> planned(Asked asked) {
    return plans.of(asked, asked.weight(), () -> new Shared<>(asked.plan()));
  }

  private Asked asked(BookCard book, BarMap map, ShowChanges changes) {
    PlanSettings settings = settings(book, library.books().settings(book.id()));
    return new Asked(book.id(), map, failed(book), changes, settings);
  }

  /** Answers a request with the plan of a map. */
  public void sendPlan(Context ctx, BookCard book, BarMap map, ShowChanges changes) {
    planned(book, map, changes).send(ctx);
  }

  /** Returns the form of a book's numbers with some changes, ready to be drawn. */
  public RoadMap road(BookCard book, Versioned<Draft> draft, Versioned<ShowChanges> changes) {
    return drawn(book, draft, changes).value();
  }

  private Shared<RoadMap> drawn(
      BookCard book, Versioned<Draft> draft, Versioned<ShowChanges> changes) {
    BarMap map = draft.value().map();
    Asked asked = asked(book, map, changes.value());
    Plan written = plan(book, map, ShowChanges.none());
    Drawn from =
        new Drawn(book.id(), written, planned(asked).value(), draft.revision(), changes.revision());
    return forms.of(from, asked.weight(), () -> new Shared<>(from.road(asked)));
  }

  /** Answers a request with the form. */
  public void sendRoad(Context ctx, BookCard book, Versioned<Draft> draft) {
    drawn(book, draft, revisedChanges(book)).send(ctx);
  }

  /** What a plan follows from; a map is the same only when it is the very one. */
  private record Asked(
      String book, BarMap map, List<Finding> failed, ShowChanges changes, PlanSettings settings) {

    /** A page that could not be read is not in the map; the plan must know that it is there. */
    Plan plan() {
      List<Finding> findings = new ArrayList<>(map.findings());
      findings.addAll(failed);
      return Planner.plan(failed.isEmpty() ? map : map.withFindings(findings), changes, settings);
    }

    /**
     * A book of a few bars with a long list of changes or of findings weighs what the list does.
     */
    long weight() {
      int said = map.findings().size() + failed.size();
      return map.bars().size() + said + OF_CHANGE * changes.changes().size() + LEAST;
    }

    /** Names all but the map, the same in every process. */
    String basis() {
      return Integer.toHexString(List.of(failed, changes, settings).toString().hashCode());
    }

    @Override
    public boolean equals(Object o) {
      return o instanceof Asked a
          && a.map == map
          && a.failed.equals(failed)
          && a.changes.equals(changes)
          && a.settings.equals(settings);
    }

    @Override
    public int hashCode() {
      return 31 * System.identityHashCode(map) + changes.hashCode();
    }
  }

  /** What a form is drawn from; plans are the same only when they are the very ones. */
  private record Drawn(
      String book, Plan written, Plan changed, long revision, long changesRevision) {

    RoadMap road(Asked asked) {
      return RoadMap.of(
          revision, changesRevision, asked.basis(), asked.map, written, changed, asked.changes);
    }

    @Override
    public boolean equals(Object o) {
      return o instanceof Drawn d
          && d.written == written
          && d.changed == changed
          && d.revision == revision
          && d.changesRevision == changesRevision;
    }

    @Override
    public int hashCode() {
      return 31 * System.identityHashCode(written) + System.identityHashCode(changed);
    }
  }

  private List<Finding> failed(BookCard book) {
    return library.pages().all(book.id()).stream()
        .filter(page -> page.state() == PageState.FAILED)
        .map(
            page ->
                Finding.ofPage(
                    Severity.ERROR,
                    Stage.PAGE,
                    page.index(),
                    "page-failed",
                    page.finding().orElse("")))
        .toList();
  }

  /** Returns a book's changes. */
  public ShowChanges changes(BookCard book) {
    return revisedChanges(book).value();
  }

  /** Returns a book's changes with their revision. */
  public Versioned<ShowChanges> revisedChanges(BookCard book) {
    return library
        .changes()
        .find(book.id())
        .map(
            v ->
                new Versioned<>(
                    v.revision(),
                    new ShowChanges(v.value().stream().map(Planning::change).toList())))
        .orElseGet(() -> new Versioned<>(0, ShowChanges.none()));
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
