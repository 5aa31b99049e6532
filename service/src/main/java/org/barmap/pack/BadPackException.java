package org.barmap.pack;

/** A file that can't be opened as a packed book; the message says why, for a player. */
public final class BadPackException extends Exception {

  private static final long serialVersionUID = 1;

  /** Makes it with a sentence. */
  public BadPackException(String message) {
    super(message);
  }
}
