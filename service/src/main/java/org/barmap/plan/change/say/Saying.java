package org.barmap.plan.change.say;

import java.util.List;

/** The words the sentences of changes share. */
public final class Saying {
  private static final List<String> NUMBERS =
      List.of(
          "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
          "eleven", "twelve");

  private Saying() {}

  /** Returns a stretch of bars: "34 to 49", or "34". */
  public static String range(String first, String last) {
    return first.strip().equals(last.strip()) ? one(first) : one(first) + " to " + one(last);
  }

  /** Returns one line, whatever was typed. */
  public static String one(String text) {
    return text.strip().replaceAll("[\\p{Cntrl}\\s]+", " ");
  }

  /** Returns a small number in words. */
  public static String count(int n) {
    return n >= 0 && n < NUMBERS.size() ? NUMBERS.get(n) : Integer.toString(n);
  }

  /** Returns a number of bars. */
  public static String bars(int n) {
    return n == 1 ? "1 bar" : n + " bars";
  }
}
