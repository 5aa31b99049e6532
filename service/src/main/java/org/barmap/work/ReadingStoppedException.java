package org.barmap.work;

/** The program ends; what was being read waits to be read again, as if it had never been begun. */
public final class ReadingStoppedException extends RuntimeException {
  private static final long serialVersionUID = 1L;

  /** Makes one. */
  public ReadingStoppedException() {
    super("the reading was stopped");
  }
}
