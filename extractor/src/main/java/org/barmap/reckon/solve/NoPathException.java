package org.barmap.reckon.solve;

/** No bar numbers that are told apart fit what is sure: a person set one beyond them. */
public final class NoPathException extends IllegalStateException {
  private static final long serialVersionUID = 1L;

  NoPathException() {
    super("no path: every weight is zero");
  }
}
