package org.barmap.plan.turn;

import java.util.List;
import java.util.Optional;
import org.barmap.plan.order.OpenRun;
import org.barmap.plan.order.Timeline;

/**
 * The turns inside a vamp or a safety: there and back, each as often as it is gone round. They are
 * laid out for two times round; the turn that comes in both stands once, as the one with less time.
 *
 * @param from index of the first turn of the line
 */
record AgainTurns(int from) {

  /** Returns when a turn comes that lies in an open stretch; empty for any other. */
  static Optional<String> says(Timeline line, int place) {
    Optional<OpenRun.Round> before = line.events().get(place - 1).round();
    return line.events()
        .get(place)
        .round()
        .filter(r -> before.filter(b -> b.from() == r.from()).isPresent())
        .map(OpenRun.Round::says);
  }

  /** Adds a turn, unless it is there from the time round before. */
  void add(Turn turn, Timeline line, int place, List<Turn> turns) {
    boolean again = line.events().get(place - 1).round().filter(OpenRun.Round::again).isPresent();
    for (int t = turns.size() - 1; again && turn.again().isPresent() && t >= from; t--) {
      Turn first = turns.get(t);
      boolean same =
          first.leaves().equals(turn.leaves())
              && first.arrives().equals(turn.arrives())
              && first.pass() == turn.pass()
              && first.again().equals(turn.again());
      if (same) {
        turns.set(t, first.verdict().compareTo(turn.verdict()) >= 0 ? first : turn);
        return;
      }
    }
    turns.add(turn);
  }
}
