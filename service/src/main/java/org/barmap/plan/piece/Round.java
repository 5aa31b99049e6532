package org.barmap.plan.piece;

/**
 * Which time through the bars around it a piece sounds.
 *
 * @param time which time through the innermost repeat around it; 0 outside of repeats
 * @param of how often that repeat is played in all; 0 outside of repeats
 * @param afterJump a D.C. or D.S. has been taken
 */
public record Round(int time, int of, boolean afterJump) {

  /** Outside of repeats and before any jump. */
  public static final Round NONE = new Round(0, 0, false);
}
