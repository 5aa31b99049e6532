package org.barmap.plan;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.plan.ready.GetReady;
import org.barmap.plan.turn.Turn;

/** Says at each turn what else the hands have to do there: a change of instrument, bow or mute. */
final class TurnHands {
  private TurnHands() {}

  static List<Turn> with(List<Turn> turns, List<GetReady> ready, BarMap map) {
    if (turns.isEmpty() || ready.isEmpty()) {
      return turns;
    }
    Map<String, Integer> places = new HashMap<>();
    for (int i = 0; i < map.bars().size(); i++) {
      places.putIfAbsent(map.bars().get(i).id(), i);
    }
    return turns.stream().map(t -> with(t, ready, map.bars(), places)).toList();
  }

  private static Turn with(
      Turn turn, List<GetReady> ready, List<Bar> bars, Map<String, Integer> places) {
    int from = places.getOrDefault(turn.leaves(), 0);
    int to = places.getOrDefault(turn.arrives(), 0);
    while (from > 0 && bars.get(from).isRest()) {
      from--; // the rest the page ends with
    }
    while (to < bars.size() - 1 && bars.get(to).isRest()) {
      to++; // the rest the page starts with, and the bar played first
    }
    int first = from;
    int last = to;
    int leaves = places.getOrDefault(turn.leaves(), 0);
    int arrives = places.getOrDefault(turn.arrives(), 0);
    List<String> things =
        ready.stream()
            .filter(
                r -> {
                  int at = places.getOrDefault(r.at(), -1);
                  boolean before = at > first && at <= leaves;
                  boolean after = at >= arrives && at <= last;
                  return (before || after) && r.number().equals(turn.number());
                })
            .map(r -> r.kind().word() + ": " + r.to())
            .distinct()
            .toList();
    return things.isEmpty() ? turn : turn.withAlsoHere(things);
  }
}
