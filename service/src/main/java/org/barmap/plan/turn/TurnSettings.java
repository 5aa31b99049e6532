package org.barmap.plan.turn;

/**
 * What the player says about turning pages.
 *
 * @param binding how the pages lie
 * @param turnSeconds how long a quiet turn takes, 0.5 to 20
 * @param quickSeconds how long a quick turn takes, 0.2 to {@code turnSeconds}
 * @param memoryBars how many bars with notes the player trusts to memory, 0 to 32
 */
public record TurnSettings(
    Binding binding, double turnSeconds, double quickSeconds, int memoryBars) {

  /** Assumptions to start with, not measured: 2 s, 1 s, 4 bars. */
  public static final TurnSettings USUAL = new TurnSettings(Binding.ODD_RIGHT, 2.0, 1.0, 4);

  /** Checks the ranges. */
  public TurnSettings {
    if (!(turnSeconds >= 0.5 && turnSeconds <= 20)) {
      throw new IllegalArgumentException("a turn takes 0.5 to 20 s, not " + turnSeconds);
    }
    if (!(quickSeconds >= 0.2 && quickSeconds <= turnSeconds)) {
      throw new IllegalArgumentException(
          "a quick turn takes 0.2 s to the time of a turn, not " + quickSeconds);
    }
    if (memoryBars < 0 || memoryBars > 32) {
      throw new IllegalArgumentException("0 to 32 bars can be remembered, not " + memoryBars);
    }
  }
}
