package org.barmap.plan;

import org.barmap.plan.ready.Chair;
import org.barmap.plan.show.Showing;
import org.barmap.plan.turn.TurnSettings;

/**
 * What the player chooses about planning; written into every plan, so that the choice is kept.
 *
 * @param repeatsAfterJump take repeats again after a D.C. or D.S.; usually not (common practice,
 *     published tools disagree)
 * @param turns about turning pages
 * @param longRestBars a rest of so many bars is listed, 2 to 100
 * @param readySeconds time a change of instrument, bow or mute needs, 1 to 120; the usual 6 s are
 *     the least of the NZSM part guidelines, known second-hand
 * @param showing which version of the show, and for which day
 * @param chair what the player says about instruments and getting ready
 */
public record PlanSettings(
    boolean repeatsAfterJump,
    TurnSettings turns,
    int longRestBars,
    double readySeconds,
    Showing showing,
    Chair chair) {

  /** The settings to start with. */
  public static final PlanSettings USUAL =
      new PlanSettings(false, TurnSettings.USUAL, 4, 6, Showing.ANY, Chair.USUAL);

  /** Chooses nothing about the version of the show. */
  public PlanSettings(
      boolean repeatsAfterJump, TurnSettings turns, int longRestBars, double readySeconds) {
    this(repeatsAfterJump, turns, longRestBars, readySeconds, Showing.ANY, Chair.USUAL);
  }

  /** Checks the ranges. */
  public PlanSettings {
    if (longRestBars < 2 || longRestBars > 100) {
      throw new IllegalArgumentException("a long rest has 2 to 100 bars, not " + longRestBars);
    }
    if (!(readySeconds >= 1 && readySeconds <= 120)) {
      throw new IllegalArgumentException("getting ready takes 1 to 120 s, not " + readySeconds);
    }
  }

  /** Returns the same settings with repeats taken again after a D.C. or D.S., or not. */
  public PlanSettings withRepeatsAfterJump(boolean again) {
    return new PlanSettings(again, turns, longRestBars, readySeconds, showing, chair);
  }

  /** Returns the same settings with others for turns. */
  public PlanSettings withTurns(TurnSettings other) {
    return new PlanSettings(repeatsAfterJump, other, longRestBars, readySeconds, showing, chair);
  }

  /** Returns the same settings with others for the chair. */
  public PlanSettings withChair(Chair other) {
    return new PlanSettings(repeatsAfterJump, turns, longRestBars, readySeconds, showing, other);
  }

  /** Returns the same settings for a version of the show and a day. */
  public PlanSettings withShowing(Showing other) {
    return new PlanSettings(repeatsAfterJump, turns, longRestBars, readySeconds, other, chair);
  }
}
