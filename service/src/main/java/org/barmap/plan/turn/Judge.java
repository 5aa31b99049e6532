package org.barmap.plan.turn;

import org.barmap.plan.change.term.Figures;
import org.barmap.plan.order.Gap;

/** Judges whether a gap is long enough. */
final class Judge {
  private static final TurnCosts COSTS = TurnCosts.USUAL;

  private final TurnSettings settings;

  Judge(TurnSettings settings) {
    this.settings = settings;
  }

  /** Returns how many turns' time it takes to turn so many leaves at once. */
  static double load(int sheets) {
    return 1 + COSTS.moreLeaf() * Math.max(0, sheets - 1);
  }

  /** Returns whether a gap is long enough for so many turns. */
  Verdict verdict(Gap gap, double load) {
    Verdict counted;
    if (gap.length().seconds().isPresent()) {
      double seconds = gap.length().seconds().get() + Figures.SAME;
      counted =
          seconds >= settings.turnSeconds() * load
              ? Verdict.TIME
              : seconds >= settings.quickSeconds() * load ? Verdict.QUICK : Verdict.NONE;
    } else {
      double quarters = gap.to() - gap.from() + Figures.SAME;
      counted =
          quarters >= 2 * COSTS.quickQuarters() * load
              ? Verdict.TIME
              : quarters >= COSTS.quickQuarters() * load ? Verdict.QUICK : Verdict.NONE;
    }
    return gap.held() && counted == Verdict.NONE ? Verdict.QUICK : counted;
  }

  /** Returns what a gap adds to the cost of a turn in it; infinite when it is too short. */
  double cost(Gap gap, double load) {
    return switch (verdict(gap, load)) {
      case TIME -> 0;
      case QUICK, UNKNOWN -> COSTS.quick();
      case NONE -> Double.POSITIVE_INFINITY;
    };
  }
}
