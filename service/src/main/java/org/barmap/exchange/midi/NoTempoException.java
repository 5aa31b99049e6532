package org.barmap.exchange.midi;

/** A number of which nobody knows how fast it goes; the message names it and says what to do. */
public final class NoTempoException extends Exception {
  private static final long serialVersionUID = 1L;

  NoTempoException(String message) {
    super(message);
  }
}
