package org.barmap.plan;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.plan.change.term.Figures;
import org.barmap.plan.order.Performance;
import org.barmap.plan.ready.GetReady;
import org.barmap.plan.turn.Advice;
import org.barmap.plan.turn.Turn;

/**
 * Says at each turn what else the hands have to do there: a change of instrument, bow or mute. A
 * rest has to be long enough for both, one after the other (common practice: the same two hands).
 *
 * @param turns with what else is done there
 * @param ready with the turn that lies in the same rest
 */
record TurnHands(List<Turn> turns, List<GetReady> ready) {

  /**
   * Returns the turns and changes of a show.
   *
   * @param show the numbers that are played, in the order of the night
   * @param seconds what a turn of one leaf takes
   */
  static TurnHands of(
      List<Turn> turns, List<GetReady> ready, BarMap map, List<Performance> show, double seconds) {
    if (turns.isEmpty() || ready.isEmpty()) {
      return new TurnHands(turns, ready);
    }
    Map<String, Integer> places = new HashMap<>();
    for (int i = 0; i < map.bars().size(); i++) {
      places.putIfAbsent(map.bars().get(i).id(), i);
    }
    Map<String, String> joined = new HashMap<>();
    for (int i = 0; i + 1 < show.size(); i++) {
      if (show.get(i).following().joined()) {
        joined.put(show.get(i).number().label(), show.get(i + 1).number().label());
      }
    }
    List<Turn> told = new ArrayList<>();
    List<GetReady> hurried = new ArrayList<>(ready);
    for (Turn turn : turns) {
      List<GetReady> here = here(turn, ready, map.bars(), places, joined);
      told.add(here.isEmpty() ? turn : both(turn, here, hurried, seconds));
    }
    return new TurnHands(List.copyOf(told), List.copyOf(hurried));
  }

  /** Adds up what the turn and the changes in its rest need. */
  private static Turn both(
      Turn turn, List<GetReady> here, List<GetReady> hurried, double turnSeconds) {
    List<String> things = new ArrayList<>();
    Map<String, Double> needs = new LinkedHashMap<>();
    for (GetReady ready : here) {
      things.add(ready.kind().word() + ": " + ready.to());
      needs.merge(ready.at(), ready.needed(), Math::max);
    }
    List<String> said = new ArrayList<>(new LinkedHashSet<>(things));
    double needed = turnSeconds * turn.sheets() + needs.values().stream().mapToDouble(n -> n).sum();
    boolean turnedHere = turn.advice().get(0).kind() == Advice.Kind.TURN_HERE;
    Optional<Double> rest = turn.gap().seconds().filter(s -> turn.gap().plus().isEmpty());
    if (!turnedHere || rest.filter(s -> s + Figures.SAME < needed).isEmpty()) {
      return turn.withAlsoHere(said);
    }
    String sum =
        Figures.rough(needed)
            + " s are needed for both, "
            + Figures.rough(rest.get())
            + " s are there";
    hurried.replaceAll(
        r ->
            here.contains(r)
                ? r.hurriedBy(
                    "Page " + turn.fromPage() + " is turned in the same rest: " + sum + ".")
                : r);
    said.add(sum);
    return turn.hurriedBy(said);
  }

  /** A rest may go on over the link to the next number. */
  private static boolean oneRest(Turn turn, String number, Map<String, String> joined) {
    return number.equals(turn.number())
        || turn.nextNumber().filter(number::equals).isPresent()
        || number.equals(joined.get(turn.number()));
  }

  private static List<GetReady> here(
      Turn turn,
      List<GetReady> ready,
      List<Bar> bars,
      Map<String, Integer> places,
      Map<String, String> joined) {
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
    return ready.stream()
        .filter(
            r -> {
              int at = places.getOrDefault(r.at(), -1);
              boolean before = at > first && at <= leaves;
              boolean after = at >= arrives && at <= last;
              return (before || after) && oneRest(turn, r.number(), joined);
            })
        .toList();
  }
}
