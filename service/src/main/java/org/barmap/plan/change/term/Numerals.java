package org.barmap.plan.change.term;

import java.util.List;
import java.util.Locale;
import java.util.OptionalInt;

/** Whole numbers in figures and English words. */
public final class Numerals {
  private static final List<String> CARDINALS =
      inOrder(
          "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen"
              + " fifteen sixteen seventeen eighteen nineteen twenty");
  private static final List<String> ORDINALS =
      inOrder(
          "zeroth first second third fourth fifth sixth seventh eighth ninth tenth eleventh twelfth"
              + " thirteenth fourteenth fifteenth sixteenth seventeenth eighteenth nineteenth"
              + " twentieth");

  /** Matches a cardinal number in figures or words. */
  public static final String CARDINAL = "(?:\\d{1,5}|" + String.join("|", CARDINALS) + ")";

  /** Matches an ordinal number in figures or words. */
  public static final String ORDINAL =
      "(?:\\d{1,5}(?:st|nd|rd|th)|" + String.join("|", ORDINALS) + ")";

  private static final int FIRST_TEEN = 11;
  private static final int LAST_TEEN = 13;

  private Numerals() {}

  private static List<String> inOrder(String words) {
    return List.of(words.split(" "));
  }

  /** Returns a number as a place in a row: "1st", "12th", "21st". */
  public static String ordinal(int n) {
    boolean teen = n % 100 >= FIRST_TEEN && n % 100 <= LAST_TEEN;
    return n + (teen ? "th" : n % 10 == 1 ? "st" : n % 10 == 2 ? "nd" : n % 10 == 3 ? "rd" : "th");
  }

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
