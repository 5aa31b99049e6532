package org.barmap.plan.trap;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.mark.PencilMark;
import org.barmap.plan.order.Performance;
import org.barmap.plan.ready.GetReady;
import org.barmap.plan.rest.LongRest;
import org.barmap.plan.turn.Turn;

/**
 * Gathers the traps of a night. The pencil list has what the show changes and the print doesn't
 * say; turns, rests and changes of instrument come as they were planned.
 */
public final class Traps {
  private Traps() {}

  /**
   * What was decided elsewhere, for the whole night.
   *
   * @param marks the pencil list
   * @param turns in the order they come
   * @param rests long rests in the order they come
   * @param ready changes of what is held
   * @param findings what is asked, and what is left where a cut joins
   */
  public record Decided(
      List<PencilMark> marks,
      List<Turn> turns,
      List<LongRest> rests,
      List<GetReady> ready,
      List<PlanFinding> findings) {}

  /** Returns the traps number by number in the order of the night; in each the grave ones first. */
  public static List<Trap> of(List<Performance> show, Decided decided) {
    Map<String, List<PencilMark>> marks = new HashMap<>();
    decided.marks().forEach(m -> list(marks, m.number()).add(m));
    Map<String, List<LongRest>> rests = new HashMap<>();
    decided.rests().forEach(r -> list(rests, r.number()).add(r));
    Map<String, List<Turn>> turns = new HashMap<>();
    decided.turns().forEach(t -> list(turns, t.number()).add(t));
    Map<String, List<GetReady>> ready = new HashMap<>();
    decided.ready().forEach(r -> list(ready, r.number()).add(r));
    List<Trap> all = new ArrayList<>();
    for (Performance performance : show) {
      TrapList traps = new TrapList(performance.number());
      String label = performance.number().label();
      MarkTraps written =
          new MarkTraps(performance, marks.getOrDefault(label, List.of()), decided.findings());
      written.add(traps);
      RestTraps.add(traps, rests.getOrDefault(label, List.of()), written.counts());
      TurnTraps.turns(traps, turns.getOrDefault(label, List.of()));
      TurnTraps.hands(traps, ready.getOrDefault(label, List.of()));
      OpenTraps.tempo(traps, performance);
      OpenTraps.asked(traps, decided.findings());
      all.addAll(
          new LinkedHashSet<>(traps.placed())
              .stream()
                  .sorted(
                      Comparator.comparing((TrapList.Placed p) -> !p.trap().grave())
                          .thenComparingInt(TrapList.Placed::entry))
                  .map(TrapList.Placed::trap)
                  .toList());
    }
    return List.copyOf(all);
  }

  private static <T> List<T> list(Map<String, List<T>> lists, String number) {
    return lists.computeIfAbsent(number, k -> new ArrayList<>());
  }
}
