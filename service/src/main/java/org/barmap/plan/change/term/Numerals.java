package org.barmap.plan.change.term;

import java.util.List;
import java.util.Locale;
import java.util.OptionalInt;

/** Whole numbers in figures and English words. */
public final class Numerals {
  private static final List<String> CARDINALS =
      List.of(
          "zero",
          "one",
          "two",
          "three",
          "four",
          "five",
          "six",
          "seven",
          "eight",
          "nine",
          "ten",
          "eleven",
          "twelve",
          "thirteen",
          "fourteen",
          "fifteen",
          "sixteen",
          "seventeen",
          "eighteen",
          "nineteen",
          "twenty");
  private static final List<String> ORDINALS =
      List.of(
          "zeroth",
          "first",
          "second",
          "third",
          "fourth",
          "fifth",
          "sixth",
          "seventh",
          "eighth",
          "ninth",
          "tenth",
          "eleventh",
          "twelfth",
          "thirteenth",
          "fourteenth",
          "fifteenth",
          "sixteenth",
          "seventeenth",
          "eighteenth",
          "nineteenth",
          "twentieth");

  /** Matches a cardinal number in figures or words. */
  public static final String CARDINAL = "(?:\\d{1,5}|" + String.join("|", CARDINALS) + ")";

  /** Matches an ordinal number in figures or words. */
  public static final String ORDINAL =
      "(?:\\d{1,5}(?:st|nd|rd|th)|" + String.join("|", ORDINALS) + ")";

  private Numerals() {}

  /** Returns the value of a cardinal or ordinal, empty when it is none. */
  public static OptionalInt value(String word) {
    String w = word.toLowerCase(Locale.ROOT).strip();
    if (w.matches("\\d{1,5}(?:st|nd|rd|th)?")) {
      return OptionalInt.of(Integer.parseInt(w.replaceAll("[a-z]+", "")));
    }
    int cardinal = CARDINALS.indexOf(w);
    int ordinal = ORDINALS.indexOf(w);
    int value = Math.max(cardinal, ordinal);
    return value < 0 ? OptionalInt.empty() : OptionalInt.of(value);
  }
}
