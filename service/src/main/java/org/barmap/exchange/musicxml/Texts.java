package org.barmap.exchange.musicxml;

/** Small things with text. */
public final class Texts {

  private Texts() {}

  /** Returns at most so many characters. */
  public static String clip(String text, int most) {
    return text.length() <= most ? text : text.substring(0, most - 1) + "…";
  }
}
