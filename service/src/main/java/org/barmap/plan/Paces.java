package org.barmap.plan;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.plan.change.term.Figures;
import org.barmap.plan.order.Performance;
import org.barmap.plan.pace.Length;
import org.barmap.plan.pace.Measure;
import org.barmap.plan.pace.Pace;
import org.barmap.plan.piece.PlayedPiece;

/** Says how a number is counted and how fast it goes, bar by bar as it is played. */
final class Paces {
  private Paces() {}

  /** Returns where beats or tempo become others, in the order of play. */
  static List<NumberPlan.Stretch> of(Performance performance) {
    List<NumberPlan.Stretch> stretches = new ArrayList<>();
    Optional<Measure> before = Optional.empty();
    int bar = 0;
    for (PlayedPiece step : performance.order().steps()) {
      Measure measure = performance.measure(step);
      boolean ramp = measure.pace().filter(Pace::changes).isPresent();
      boolean same =
          before
              .filter(b -> b.beats() == measure.beats() && b.pace().equals(measure.pace()))
              .isPresent();
      if (!same || ramp) {
        stretches.add(
            new NumberPlan.Stretch(
                bar,
                measure.beats(),
                measure.pace().map(p -> rounded(p.from())),
                ramp ? measure.pace().map(p -> rounded(p.to())) : Optional.empty()));
      }
      before = Optional.of(measure);
      bar += step.piece().count();
    }
    return stretches;
  }

  /** Returns what of a number's time is known, where not all of it is. */
  static Optional<NumberPlan.KnownTime> known(Performance performance) {
    Length known = Length.none();
    int without = 0;
    for (PlayedPiece step : performance.order().steps()) {
      Length one = Length.of(step.piece(), performance.measure(step));
      if (one.seconds().isPresent()) {
        known = known.plus(one);
      } else {
        without += step.piece().bars();
      }
    }
    if (without == 0 || known.bars() == 0) {
      return Optional.empty();
    }
    double seconds = known.rounded().seconds().orElse(0.0);
    return Optional.of(new NumberPlan.KnownTime(seconds, known.bars(), without));
  }

  private static double rounded(double perMinute) {
    return Figures.thousandths(perMinute);
  }
}
