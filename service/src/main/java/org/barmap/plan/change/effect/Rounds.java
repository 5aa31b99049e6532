package org.barmap.plan.change.effect;

/**
 * How often bars are played.
 *
 * @param until what ends it
 * @param times how often in all; 1 where nobody knows beforehand
 * @param leaving how it is left, as far as that is said
 */
public record Rounds(Until until, int times, Leaving leaving) {

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
    return new Rounds(Until.COUNTED, times, Leaving.UNSAID);
  }

  /** Returns bars repeated until the cue. */
  public static Rounds vamp(Leaving leaving) {
    return new Rounds(Until.CUE, 1, leaving);
  }

  /** Returns bars repeated only if the director says so. */
  public static Rounds safety() {
    return new Rounds(Until.DIRECTOR, 1, Leaving.UNSAID);
  }
}
