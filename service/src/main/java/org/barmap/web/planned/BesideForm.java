package org.barmap.web.planned;

import java.util.List;
import java.util.Optional;
import org.barmap.plan.NumberPlan;
import org.barmap.plan.Plan;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.pace.Length;
import org.barmap.plan.page.PagePlace;
import org.barmap.plan.turn.Turn;
import org.barmap.plan.turn.TurnMark;
import org.barmap.plan.turn.Verdict;

/**
 * What of a plan is shown beside the form: how long each number is, the turns, what is asked.
 *
 * @param numbers in the order of the night
 * @param turns in the order they come
 * @param findings what can't be right, what to think about, what follows from a change
 * @param pages on which side each page lies
 */
public record BesideForm(
    List<Played> numbers, List<Turned> turns, List<PlanFinding> findings, List<PagePlace> pages) {

  /** One number, as {@link NumberPlan} has it. */
  public record Played(
      String label,
      NumberPlan.State state,
      int written,
      Length played,
      Optional<NumberPlan.KnownTime> known) {}

  /** One turn, as {@link Turn} has it, without what to do there. */
  public record Turned(
      int fromPage,
      int toPage,
      String leaves,
      int pass,
      Turn.Direction direction,
      Length gap,
      Verdict verdict,
      Optional<TurnMark> mark,
      Optional<String> again) {}

  static BesideForm of(Plan plan) {
    List<Played> numbers =
        plan.numbers().stream()
            .map(n -> new Played(n.label(), n.state(), n.written(), n.played(), n.known()))
            .toList();
    List<Turned> turns = plan.turns().stream().map(BesideForm::turned).toList();
    return new BesideForm(numbers, turns, plan.findings(), plan.pages());
  }

  private static Turned turned(Turn t) {
    return new Turned(
        t.fromPage(),
        t.toPage(),
        t.leaves(),
        t.pass(),
        t.direction(),
        t.gap(),
        t.verdict(),
        t.mark(),
        t.again());
  }
}
