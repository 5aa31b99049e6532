package org.barmap.exchange.musicxml;

/** Small things with text. */
final class Texts {

  private Texts() {}

  /** Returns at most so many characters. */
  static String clip(String text, int most) {
    return text.length() <= most ? text : text.substring(0, most - 1) + "…";
  }
}
