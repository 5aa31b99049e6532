package org.barmap.plan;

import java.util.ArrayList;
import java.util.List;
import org.barmap.plan.change.term.Figures;

/**
 * How long the music of the night is: nothing in it is guessed, and what lies between the numbers
 * is not in it.
 *
 * @param seconds how long everything lasts that is known
 * @param plus what comes on top and has no length; may be empty
 * @param without labels of the numbers in the show whose length is not known, or only in part
 */
public record Night(double seconds, List<Plus> plus, List<String> without) {

  /** Takes defensive copies. */
  public Night {
    plus = List.copyOf(plus);
    without = List.copyOf(without);
  }

  /**
   * Something of no known length.
   *
   * @param number label of the number it is in
   * @param what "vamp 3-4", "hold 12"
   */
  public record Plus(String number, String what) {}

  /** Returns how long the numbers of a run sheet last together. */
  static Night of(List<RunSheet> lines) {
    double seconds = 0;
    List<Plus> plus = new ArrayList<>();
    List<String> without = new ArrayList<>();
    for (RunSheet line : lines) {
      if (line.state() == NumberPlan.State.CUT) {
        continue;
      }
      if (line.seconds().isPresent()) {
        seconds += line.seconds().get();
      } else {
        seconds += line.known().map(NumberPlan.KnownTime::seconds).orElse(0.0);
        without.add(line.number());
      }
      line.plus().forEach(p -> plus.add(new Plus(line.number(), p)));
    }
    return new Night(Figures.hundredths(seconds), plus, without);
  }
}
