package org.barmap.plan.change.effect;

import java.util.Optional;
import org.barmap.plan.change.term.Pass;

/**
 * How often bars are played.
 *
 * @param until what ends it
 * @param times how often in all; 1 where nobody knows beforehand
 * @param leaving how it is left, as far as that is said
 * @param pass of bars held open: in which pass of a repeat around them; empty for every one
 */
public record Rounds(Until until, int times, Leaving leaving, Optional<Pass> pass) {

  /** What ends it. */
  public enum Until {
    /** They have been played so often. */
    COUNTED,
    /** The cue; till then they are repeated. */
    CUE,
    /** The director, who may repeat them or not. */
    DIRECTOR
  }

  /** Returns bars played so often in all. */
  public static Rounds times(int times) {
    return new Rounds(Until.COUNTED, times, Leaving.UNSAID, Optional.empty());
  }

  /** Returns bars repeated until the cue. */
  public static Rounds vamp(Leaving leaving, Optional<Pass> pass) {
    return new Rounds(Until.CUE, 1, leaving, pass);
  }

  /** Returns bars repeated only if the director says so. */
  public static Rounds safety(Optional<Pass> pass) {
    return new Rounds(Until.DIRECTOR, 1, Leaving.UNSAID, pass);
  }
}
