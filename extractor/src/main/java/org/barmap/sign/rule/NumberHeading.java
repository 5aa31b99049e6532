package org.barmap.sign.rule;

import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Recognises the heading of a musical number by how they are worded (common practice): "No. 7", "7.
 * Low Tide", "#7 - Low Tide", "7A Low Tide", "Overture", "Entr'acte", "Bows".
 */
public final class NumberHeading {
  private static final String SEPARATOR = "\\s*[.:)\\-–—,]+\\s*|\\s+";

  /**
   * "No. 7", with a title or without. Figures may be read as letters of their shape. A letter that
   * stands apart is the number's where nothing or a stop follows it, "No. 4 A", "No. 4 B. Low
   * Tide"; before a word it begins the title, "No. 4 A Boat".
   */
  private static final Pattern NAMED =
      Pattern.compile(
          "(?:[NV][o0°]|Nr|NO|N0|NR|№|#|Number|NUMBER)\\s*[.,:]?\\s*"
              + "([0-9OIl]{1,3}(?:[A-Ha-h](?![\\p{L}\\p{N}])|\\s[A-H](?=\\s*(?:[.:),](?:\\s|$)|$)|\\s+[\\-–—]\\s))?)"
              + "(?:(?:"
              + SEPARATOR
              + ")(.*))?");

  /** "7. Low Tide", "7A - Low Tide": a stop and a title that begins as titles do. */
  private static final Pattern NUMBERED =
      Pattern.compile("([1-9][0-9O]{0,2}[A-H]?)\\s*[.:)\\-–—]+\\s*(\\p{Lu}.*\\p{L}.{2,})");

  /** "7 Low Tide": only where headings stand, for "2 Flutes" is none. */
  private static final Pattern LOOSE =
      Pattern.compile("([1-9][0-9O]?[A-H]?)[^\\p{L}\\p{N}]+(\\p{Lu}\\p{L}.*\\p{L}.*)");

  /** Numbers that go by their name. */
  private static final Pattern NAMES =
      Pattern.compile(
          "(?:(?:act (?:one|two|i{1,3}|[1-3])[ ,:-]*)?"
              + "(?:overture|entr'?acte|prologue|epilogue|opening|finale?|finale ultimo|bows"
              + "|curtain calls?|exit music|play-?off|intermezzo|scene change|underscore))",
          Pattern.CASE_INSENSITIVE);

  private static final Pattern TACET =
      Pattern.compile("[(\\s]*tacet[).\\s]*", Pattern.CASE_INSENSITIVE);

  private NumberHeading() {}

  /** Tells whether a text says that a number is not played, and nothing else. */
  public static boolean saysTacet(String text) {
    return TACET.matcher(text).matches();
  }

  /**
   * Returns a heading as "7. Low Tide" or "Overture"; empty when a text isn't one.
   *
   * @param placed whether it stands where headings do: at the line's beginning or in its middle,
   *     high above the staff
   */
  public static Optional<String> of(String text, boolean placed) {
    String clean = text.strip().replaceAll("\\s+", " ").replaceAll("^[^\\p{L}\\p{N}#№]+", "");
    Matcher named = NAMED.matcher(clean);
    if (named.matches()) {
      return Optional.of(worded(named.group(1), named.group(2) == null ? "" : named.group(2)));
    }
    Matcher numbered = NUMBERED.matcher(clean);
    if (numbered.matches()) {
      return Optional.of(worded(numbered.group(1), numbered.group(2)));
    }
    Matcher loose = LOOSE.matcher(clean);
    if (placed && loose.matches()) {
      return Optional.of(worded(loose.group(1), loose.group(2)));
    }
    String bare = clean.replaceAll("[.!:]+$", "");
    return NAMES.matcher(bare).matches() ? Optional.of(bare) : Optional.empty();
  }

  private static String worded(String label, String title) {
    String digits = label.replace(" ", "").replace('O', '0').replace('I', '1').replace('l', '1');
    // A number sign reads as a 4 at times; no book has that many numbers.
    boolean sign = digits.matches("4\\d\\d[A-H]?");
    String rest = title.strip().replaceAll("^[^\\p{L}\\p{N}(\"'“„]+", "");
    return ((sign ? digits.substring(1) : digits) + ". " + rest).strip();
  }
}
