package org.barmap.work.child;

import org.barmap.work.child.LostException.Why;

/** How often a question is asked again after the child ended under it. */
final class Tries {

  private final ChildLimits limits;
  private int crashed;
  private int killed;

  Tries(ChildLimits limits) {
    this.limits = limits;
  }

  /**
   * Takes note of an end.
   *
   * @return whether to ask again
   */
  boolean again(Why why) {
    return switch (why) {
      case GONE -> ++crashed < limits.tries();
      case KILLED -> ++killed < limits.kills();
      case TIME, SKIPPED, STOPPED -> false;
    };
  }

  /** The same for what no person can have meant who broke off a page: it was read beside it. */
  boolean againBeside(Why why) {
    return again(why == Why.SKIPPED ? Why.KILLED : why);
  }
}
