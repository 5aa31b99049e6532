package org.barmap.exchange.musicxml;

/** Small things with text. */
public final class Texts {

  private Texts() {}

  /** Returns at most so many characters; a sign that takes two is not cut in half. */
  public static String clip(String text, int most) {
    if (text.length() <= most) {
      return text;
    }
    int end = Character.isHighSurrogate(text.charAt(most - 2)) ? most - 2 : most - 1;
    return text.substring(0, end) + "…";
  }
}
