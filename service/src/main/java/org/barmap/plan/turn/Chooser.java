package org.barmap.plan.turn;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.barmap.plan.change.term.Figures;
import org.barmap.plan.pace.Gap;

/** Chooses one candidate for every turn of a line so that the sum of costs is least. */
final class Chooser {

  private record State(int candidate, double load, double cost, int previous) {}

  private final List<Gap> gaps;
  private final Judge judge;

  Chooser(List<Gap> gaps, Judge judge) {
    this.gaps = gaps;
    this.judge = judge;
  }

  /**
   * Returns the index of the chosen candidate of each turn.
   *
   * @param turns the candidates of each turn in the order of play; each list has one that is always
   *     possible
   */
  List<Integer> choose(List<List<Candidate>> turns) {
    List<List<State>> table = new ArrayList<>();
    for (int t = 0; t < turns.size(); t++) {
      List<State> states = new ArrayList<>();
      for (int c = 0; c < turns.get(t).size(); c++) {
        if (t == 0) {
          add(states, turns.get(t).get(c), c, 0, 0, -1);
        } else {
          List<State> before = table.get(t - 1);
          for (int s = 0; s < before.size(); s++) {
            State state = before.get(s);
            Candidate last = turns.get(t - 1).get(state.candidate());
            Candidate now = turns.get(t).get(c);
            if (follows(last, now)) {
              boolean same = now.gap() >= 0 && now.gap() == last.gap();
              add(states, now, c, same ? state.load() : 0, state.cost(), s);
            }
          }
        }
      }
      table.add(pruned(states));
    }
    return trace(table);
  }

  /** Tells whether a page can be turned in one place after another was turned in the one before. */
  static boolean follows(Candidate last, Candidate now) {
    return now.to() >= last.from() - Figures.SAME
        && (now.gap() < 0 || last.gap() < 0 || now.gap() >= last.gap());
  }

  private void add(List<State> states, Candidate now, int c, double used, double cost, int from) {
    double load = used + now.load();
    double needed = used > 0 ? load * TurnCosts.USUAL.sharing() : load;
    double gap = now.gap() < 0 ? 0 : judge.cost(gaps.get(now.gap()), needed);
    if (gap < Double.POSITIVE_INFINITY) {
      states.add(new State(c, load, cost + now.base() + gap, from));
    }
  }

  /** Keeps of each candidate only states that are cheaper or leave more of the gap. */
  private static List<State> pruned(List<State> states) {
    List<State> kept = new ArrayList<>();
    for (State s : states) {
      boolean beaten =
          kept.stream()
              .anyMatch(
                  k ->
                      k.candidate() == s.candidate()
                          && k.cost() <= s.cost()
                          && k.load() <= s.load());
      if (!beaten) {
        kept.add(s);
      }
    }
    return kept;
  }

  private static List<Integer> trace(List<List<State>> table) {
    List<Integer> chosen = new ArrayList<>();
    if (table.isEmpty()) {
      return chosen;
    }
    List<State> last = table.get(table.size() - 1);
    int best = 0;
    for (int s = 1; s < last.size(); s++) {
      if (last.get(s).cost() < last.get(best).cost()) {
        best = s;
      }
    }
    for (int t = table.size() - 1; t >= 0; t--) {
      State state = table.get(t).get(best);
      chosen.add(state.candidate());
      best = state.previous();
    }
    Collections.reverse(chosen);
    return chosen;
  }
}
