package org.barmap.plan.turn;

import java.util.ArrayList;
import java.util.List;
import org.barmap.plan.order.Timeline;

/**
 * The way to stay on the page that is open where the next turn comes back to it: the bars of the
 * other page are rests, or few enough for memory. It saves both turns, so it is chosen for both or
 * for neither, and where it costs the same as turning.
 */
record Stays(Timeline line, TurnSettings settings) {

  /** The advice of both turns that stay. */
  private record Pair(Advice away, Advice back) {}

  /**
   * Puts the way to stay among the ways of the turns that have it.
   *
   * @param places index of the first step after each turn
   * @param ways the ways of each turn, the chosen one first; changed here
   */
  void offer(List<Integer> places, List<List<Advice>> ways) {
    boolean stayed = false;
    for (int t = 0; t + 1 < places.size(); t++) {
      if (stayed) {
        stayed = false; // the turn back of one stay is not the turn away of another
        continue;
      }
      int from = places.get(t);
      int to = places.get(t + 1) - 1;
      if (line.events().get(from - 1).page() != line.events().get(to + 1).page()) {
        continue;
      }
      int bars = line.barsWithNotes(line.start(from), line.end(to), from, to);
      if (bars > settings.memoryBars()) {
        continue;
      }
      Pair pair = pair(from, to, bars);
      double turning = ways.get(t).get(0).cost() + ways.get(t + 1).get(0).cost();
      boolean better = bars == 0 || pair.away.cost() <= turning;
      put(ways.get(t), pair.away, better);
      put(ways.get(t + 1), pair.back, better);
      stayed = better;
    }
  }

  private Pair pair(int from, int to, int bars) {
    double cost = TurnCosts.USUAL.barFromMemory() * bars;
    Advice away = AdviceText.stay(line, from - 1, from, to, bars, cost);
    return new Pair(away, away);
  }

  private static void put(List<Advice> ways, Advice stay, boolean chosen) {
    List<Advice> others = new ArrayList<>(ways);
    ways.clear();
    if (chosen) {
      ways.add(stay.chosen(true));
      others.forEach(a -> ways.add(a.chosen(false)));
    } else {
      ways.addAll(others);
      ways.add(1, stay);
    }
  }
}
