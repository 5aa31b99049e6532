package org.barmap.plan.oracle;

/** The planner has nothing to say about what is asked; neither right nor wrong. */
final class NoAnswer extends RuntimeException {
  private static final long serialVersionUID = 1L;

  NoAnswer(String what) {
    super(what);
  }
}
