package org.barmap.plan.pace;

import org.barmap.plan.change.term.Figures;

/**
 * A stretch in which the player has no notes.
 *
 * @param from where it begins, in quarters from the start of its line
 * @param to where it ends, in quarters
 * @param firstStep index of the step it begins in
 * @param lastStep index of the step it ends in
 * @param length whole silent bars, beats and seconds of it
 * @param held a fermata, a caesura, a general pause or a cue lies in it: it lasts longer than
 *     counted
 * @param least seconds it lasts in any case, however fast the bars go of which no tempo is known
 */
public record Gap(
    double from,
    double to,
    int firstStep,
    int lastStep,
    Length length,
    boolean held,
    double least) {

  /**
   * Quarters a minute that no piece reaches: twice the fastest mark of a metronome. What lasts long
   * enough even so needs no tempo.
   */
  public static final double UNREACHED = 800;

  /** Makes a gap of which a tempo is known, or nothing. */
  public Gap(double from, double to, int firstStep, int lastStep, Length length, boolean held) {
    this(from, to, firstStep, lastStep, length, held, length.seconds().orElse(0.0));
  }

  /** Returns how long a stretch lasts in any case, in seconds. */
  public static double least(Length length, double quarters) {
    return length.seconds().orElse(quarters * SECONDS / UNREACHED);
  }

  private static final double SECONDS = 60;

  /** Tells whether its length is known to the second. */
  public boolean measured() {
    return length.seconds().isPresent() && !held;
  }

  /** Tells whether it goes on till somebody gives a cue: a hold, or a vamp that is rested. */
  public boolean waits() {
    return held || length.plus().stream().anyMatch(p -> p.startsWith("vamp "));
  }

  /** Tells whether a place lies in it or at its edge. */
  public boolean touches(double at) {
    return at >= from - Figures.SAME && at <= to + Figures.SAME;
  }
}
