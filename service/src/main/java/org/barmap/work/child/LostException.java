package org.barmap.work.child;

/** The child ended under a question. */
final class LostException extends RuntimeException {
  private static final long serialVersionUID = 1L;

  /** Why it ended. */
  enum Why {
    /** By itself: a crash, or there was no memory left. */
    GONE,
    /** Another process ended it, the system for want of memory perhaps, or a page beside it did. */
    KILLED,
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
