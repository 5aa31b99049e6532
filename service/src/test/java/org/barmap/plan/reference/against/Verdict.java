package org.barmap.plan.reference.against;

/** What comes out of comparing a plan with the walker. */
public enum Verdict {
  /** The same bars in the same order, the same open stretches, nothing in force that is wrong. */
  AGREE(Group.AGREE),
  /** The same, though the plan asks something the walker is sure of. */
  AGREE_AND_PLAN_ASKS(Group.AGREE),
  /** Both ask, and what the plan shows is one of the walker's readings. */
  BOTH_ASK(Group.BOTH_ASK),
  /** Both ask, and the plan shows an order that is none of the walker's readings. */
  ASKS_OTHERWISE(Group.BOTH_ASK),
  /** The walker asks; the plan goes on with one of the readings and says nothing. */
  PLAN_GUESSES(Group.DIFFER),
  /** The walker asks; the plan goes on with an order that is none of the readings. */
  PLAN_INVENTS(Group.DIFFER),
  /** The plan asks and plays something other than what the walker is sure of. */
  PLAN_ASKS(Group.DIFFER),
  /** Other numbers, or in another order. */
  NUMBERS(Group.DIFFER),
  /** Played, tacet or out. */
  PLAYING(Group.DIFFER),
  /** Other bars, or in another order. */
  ORDER(Group.DIFFER),
  /** Other passes. */
  PASSES(Group.DIFFER),
  /** Other vamps or safeties. */
  OPEN(Group.DIFFER),
  /** Something in force at a bar is wrong. */
  STATE(Group.DIFFER),
  /** Other beats or seconds in all. */
  TOTALS(Group.DIFFER),
  /** The plan threw something. */
  FAILED(Group.DIFFER);

  /** The three answers of a comparison. */
  public enum Group {
    AGREE,
    BOTH_ASK,
    DIFFER
  }

  private final Group group;

  Verdict(Group group) {
    this.group = group;
  }

  /** Returns which of the three answers it is. */
  public Group group() {
    return group;
  }
}
