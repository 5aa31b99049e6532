package org.barmap.plan;

import java.util.ArrayList;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.ShowChange;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.order.Clock;
import org.barmap.plan.order.Length;
import org.barmap.plan.order.Link;
import org.barmap.plan.order.Measure;
import org.barmap.plan.order.OrderOfPlay;
import org.barmap.plan.order.Orders;
import org.barmap.plan.order.Performance;
import org.barmap.plan.order.Piece;
import org.barmap.plan.order.Span;
import org.barmap.plan.order.Spans;
import org.barmap.plan.turn.Turns;

/** Computes a plan: a pure function of map, changes and settings. */
public final class Planner {

  private final PlanSettings settings;
  private final List<PlanFinding> findings = new ArrayList<>();
  private final List<Performance> show = new ArrayList<>();
  private final List<NumberPlan> numbers = new ArrayList<>();

  private Planner(PlanSettings settings) {
    this.settings = settings;
  }

  /** Computes a plan. Never fails: what can't be done is a finding. */
  public static Plan plan(BarMap map, ShowChanges changes, PlanSettings settings) {
    Planner planner = new Planner(settings);
    planner.run(map, changes);
    return new Plan(
        Plan.FORMAT,
        settings,
        planner.numbers,
        Turns.of(planner.show, settings.turns()),
        planner.findings);
  }

  private void run(BarMap map, ShowChanges changes) {
    List<ShowChange> active = changes.active();
    List<WrittenNumber> written = WrittenNumber.all(map);
    Map<WrittenNumber, List<ShowChange>> byNumber = new IdentityHashMap<>();
    for (ShowChange change : active) {
      if (!(change instanceof ShowChange.Reorder)) {
        NumberOrder.of(written, change, findings)
            .ifPresent(n -> byNumber.computeIfAbsent(n, k -> new ArrayList<>()).add(change));
      }
    }
    for (WrittenNumber number : NumberOrder.ordered(written, active, findings)) {
      one(number, byNumber.getOrDefault(number, List.of()));
    }
  }

  private void one(WrittenNumber number, List<ShowChange> changes) {
    List<Span> spans = Spans.of(number, changes, findings);
    OrderOfPlay order = Orders.of(number, spans, settings.repeatsAfterJump());
    findings.addAll(order.findings());
    List<Measure> measures = Clock.read(order.pieces(), spans);
    Link link = link(number);
    NumberPlan.State state = state(number, changes);
    Performance whole = new Performance(order, measures, link);
    if (state == NumberPlan.State.PLAYED) {
      show.add(whole);
      numbers.add(
          new NumberPlan(
              number.label(),
              number.title(),
              state,
              Entries.of(order.steps()),
              written(number),
              whole.played().rounded(),
              whole.cut().rounded(),
              order.open(),
              link));
    } else {
      Length out = state == NumberPlan.State.CUT ? whole.played().plus(whole.cut()) : Length.none();
      numbers.add(
          new NumberPlan(
              number.label(),
              number.title(),
              state,
              List.of(),
              written(number),
              Length.none(),
              out.rounded(),
              List.of(),
              link));
    }
  }

  private static NumberPlan.State state(WrittenNumber number, List<ShowChange> changes) {
    NumberPlan.State state = number.tacet() ? NumberPlan.State.TACET : NumberPlan.State.PLAYED;
    for (ShowChange change : changes) {
      if (change instanceof ShowChange.CutNumber) {
        return NumberPlan.State.CUT;
      }
      state = change instanceof ShowChange.Tacet ? NumberPlan.State.TACET : state;
    }
    return state;
  }

  private static int written(WrittenNumber number) {
    return number.bars().stream().mapToInt(b -> Piece.whole(b).bars()).sum();
  }

  private static Link link(WrittenNumber number) {
    if (number.bars().isEmpty()) {
      return Link.BREAK;
    }
    Bar last = number.bars().get(number.bars().size() - 1);
    return Link.read(last.words());
  }
}
