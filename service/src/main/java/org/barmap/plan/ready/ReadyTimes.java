package org.barmap.plan.ready;

/**
 * What getting ready takes, beside the player's own seconds. Assumptions, none is measured.
 *
 * @param bowSeconds from bow to fingers and back; not the guideline's 6 s, nothing is put away
 * @param enoughQuarters quarters that count as time where no tempo is known
 * @param quickShare share of the time needed that is still enough for a quick change
 */
record ReadyTimes(double bowSeconds, double enoughQuarters, double quickShare) {

  /** The times every plan is made with. */
  static final ReadyTimes USUAL = new ReadyTimes(2, 16, 0.5);
}
