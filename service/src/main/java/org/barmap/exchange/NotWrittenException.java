package org.barmap.exchange;

/** A book that can't be written in a form; the message is for the person who asked. */
public final class NotWrittenException extends Exception {
  private static final long serialVersionUID = 1L;

  NotWrittenException(String message) {
    super(message);
  }

  NotWrittenException(String message, Exception cause) {
    super(message, cause);
  }
}
