package org.barmap.plan.turn;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.plan.order.Timeline;
import org.barmap.plan.pace.Gap;

/**
 * Gives each turn of a line its own gap: turns around one rest, there and back again or on and on,
 * share it, so that no part of it counts twice.
 *
 * @param gap the stretch without notes that this turn has for itself; empty where there is none
 * @param shared other turns have the rest of it: there is no time to lose
 */
record OwnGaps(Optional<Gap> gap, boolean shared) {

  /**
   * Returns the gap of each turn.
   *
   * @param places index of the first step after each turn, in the order of play
   * @param loads how many turns' time each takes
   */
  static List<OwnGaps> of(Timeline line, List<Integer> places, List<Double> loads) {
    List<OwnGaps> own = new ArrayList<>();
    int t = 0;
    while (t < places.size()) {
      Optional<Gap> gap = line.gapAt(line.start(places.get(t)));
      int to = t + 1;
      while (gap.isPresent()
          && to < places.size()
          && line.gapAt(line.start(places.get(to))).filter(g -> g == gap.get()).isPresent()) {
        to++;
      }
      if (gap.isEmpty() || to == t + 1) {
        own.add(new OwnGaps(gap, false));
      } else {
        own.addAll(shares(line, gap.get(), loads.subList(t, to)));
      }
      t = to;
    }
    return own;
  }

  /** Parts of one gap, each as long as its turn's share of the time all of them take. */
  private static List<OwnGaps> shares(Timeline line, Gap gap, List<Double> loads) {
    List<OwnGaps> shares = new ArrayList<>();
    double all = loads.stream().mapToDouble(Double::doubleValue).sum();
    double passed = 0;
    double from = gap.from();
    for (double load : loads) {
      passed += load;
      double to = gap.from() + (gap.to() - gap.from()) * passed / all;
      shares.add(new OwnGaps(Optional.of(line.portion(gap, from, to)), true));
      from = to;
    }
    return shares;
  }

  /** Returns how many turns' time a turn takes here. */
  double load(double alone) {
    return shared ? alone * TurnCosts.USUAL.sharing() : alone;
  }
}
