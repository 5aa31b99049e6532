package org.barmap.plan.order;

import org.barmap.plan.change.term.Figures;
import org.barmap.plan.pace.Length;

/**
 * A stretch in which the player has no notes.
 *
 * @param from where it begins, in quarters from the start of its line
 * @param to where it ends, in quarters
 * @param firstStep index of the step it begins in
 * @param lastStep index of the step it ends in
 * @param length whole silent bars, beats and seconds of it
 * @param held a fermata, a caesura or a cue lies in it: it lasts longer than counted
 */
public record Gap(
    double from, double to, int firstStep, int lastStep, Length length, boolean held) {

  /** Tells whether a place lies in it or at its edge. */
  public boolean touches(double at) {
    return at >= from - Figures.SAME && at <= to + Figures.SAME;
  }
}
