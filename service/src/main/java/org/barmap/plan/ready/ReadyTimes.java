package org.barmap.plan.ready;

/**
 * What getting ready takes, beside the player's own seconds. Assumptions, none is measured.
 *
 * @param bowSeconds from bow to fingers and back; not the guideline's 6 s, nothing is put away
 * @param quickShare share of the time needed that is still enough for a quick change
 */
record ReadyTimes(double bowSeconds, double quickShare) {

  /** The times every plan is made with. */
  static final ReadyTimes USUAL = new ReadyTimes(2, 0.5);
}
