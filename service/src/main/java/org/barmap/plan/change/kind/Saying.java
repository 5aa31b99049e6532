package org.barmap.plan.change.kind;

import java.util.List;

/** The words the sentences of changes share. */
final class Saying {
  private static final List<String> NUMBERS =
      List.of(
          "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
          "eleven", "twelve");

  private Saying() {}

  static String range(String first, String last) {
    return first.strip().equals(last.strip()) ? one(first) : one(first) + " to " + one(last);
  }

  /** One line, whatever was typed. */
  static String one(String text) {
    return text.strip().replaceAll("[\\p{Cntrl}\\s]+", " ");
  }

  static String count(int n) {
    return n >= 0 && n < NUMBERS.size() ? NUMBERS.get(n) : Integer.toString(n);
  }

  static String bars(int n) {
    return n == 1 ? "1 bar" : n + " bars";
  }
}
