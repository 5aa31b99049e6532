package org.barmap.exchange.midi;

/** Nothing of what was asked for is played; the message says which number it is. */
public final class NothingPlayedException extends Exception {
  private static final long serialVersionUID = 1L;

  NothingPlayedException(String message) {
    super(message);
  }
}
