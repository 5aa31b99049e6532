package org.barmap.work.child;

/** The child ended under a question. */
final class LostException extends RuntimeException {
  private static final long serialVersionUID = 1L;

  /** Why it ended. */
  enum Why {
    /** By itself: a crash, or the system took it. */
    GONE,
    /** The question took too long. */
    TIME,
    /** A person did not want to wait any longer. */
    SKIPPED,
    /** The service ends. */
    STOPPED
  }

  private final Why why;

  LostException(Why why) {
    super(why.name());
    this.why = why;
  }

  Why why() {
    return why;
  }
}
