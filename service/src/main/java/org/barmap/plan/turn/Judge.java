package org.barmap.plan.turn;

import java.util.List;
import java.util.Optional;
import org.barmap.plan.change.term.Figures;
import org.barmap.plan.pace.Gap;

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

  /**
   * Returns whether a gap is long enough for so many turns; unknown where that hangs on a tempo
   * nobody knows, or on how long a hold is.
   */
  Verdict verdict(Gap gap, double load) {
    double seconds = gap.least() + Figures.SAME;
    if (seconds >= settings.turnSeconds() * load) {
      return Verdict.TIME;
    }
    boolean nothing = gap.to() - gap.from() < Figures.SAME && !gap.held();
    if ((!gap.measured() || gap.waits()) && !nothing) {
      return Verdict.UNKNOWN;
    }
    return seconds >= settings.quickSeconds() * load ? Verdict.QUICK : Verdict.NONE;
  }

  /** Returns what a gap adds to the cost of a turn in it; infinite when it is too short. */
  double cost(Gap gap, double load) {
    return switch (verdict(gap, load)) {
      case TIME -> 0;
      case QUICK -> COSTS.quick();
      case UNKNOWN -> gap.held() || isLikely(gap, load) ? COSTS.quick() : Double.POSITIVE_INFINITY;
      case NONE -> Double.POSITIVE_INFINITY;
    };
  }

  /** Returns what a verdict hangs on, where it is unknown. */
  static Optional<String> because(Gap gap, Verdict verdict) {
    if (verdict != Verdict.UNKNOWN) {
      return Optional.empty();
    }
    List<String> holds = gap.length().plus();
    String tempo = gap.length().seconds().isEmpty() ? "no tempo is known there" : "";
    String hold =
        holds.isEmpty() ? "" : String.join(", ", holds) + ": nobody knows how long beforehand";
    return Optional.of(tempo + (tempo.isEmpty() || hold.isEmpty() ? "" : "; ") + hold);
  }

  /** Which way is tried first may go by an ordinary tempo; whether there is time may not. */
  static boolean isLikely(Gap gap, double load) {
    return gap.to() - gap.from() + Figures.SAME >= COSTS.quickQuarters() * load;
  }
}
