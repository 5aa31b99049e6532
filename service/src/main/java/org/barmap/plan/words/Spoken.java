package org.barmap.plan.words;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.List;
import java.util.Locale;
import java.util.regex.MatchResult;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.plan.change.term.Numerals;

/** Brings typed words to the letters and figures that the patterns of the kinds know. */
final class Spoken {
  private static final List<String> TENS =
      List.of("twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety");
  private static final String UNIT = "(one|two|three|four|five|six|seven|eight|nine)";
  private static final Pattern BIG =
      phrase(
          "\\b(?:(a|one|two|three|four|five)\\s+hundred(?:\\s+and)?\\s*)?\\b("
              + String.join("|", TENS)
              + ")(?:[\\s-]"
              + UNIT
              + ")?\\b");
  private static final String TEEN =
      "(ten|eleven|twelve|thirteen|fourteen|fifteen|sixteen|seventeen|eighteen|nineteen)";
  private static final Pattern HUNDREDS =
      phrase(
          "\\b(a|one|two|three|four|five)\\s+hundred(?:\\s+and\\s+(?:"
              + UNIT
              + "|"
              + TEEN
              + "))?\\b");

  /** "One-twelve", "one twenty-six", "one-oh-two": how three figures are said in a rehearsal. */
  private static final Pattern BY_FIGURES =
      phrase(
          "(?<![\\p{L}-])(?:(one|two|three)-|(one)\\s+)(?:(?:oh?)[\\s-]"
              + UNIT
              + "|"
              + TEEN
              + "|("
              + String.join("|", TENS)
              + ")(?:[\\s-]"
              + UNIT
              + ")?)(?![\\p{L}-])");

  private static final Pattern SMALL =
      phrase(
          "(?<![\\p{L}-])(two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|fourteen"
              + "|fifteen|sixteen|seventeen|eighteen|nineteen)(?![\\p{L}-])"
              + "|(?<=\\b(?:bar|beat|to|from|at|after|before|cut|number|through|measure)\\s)one\\b"
              + "|\\bone(?=(?:\\s*(?:-|,|and|to|through|thru|till|until)\\s*)+(?:\\d|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|twenty)\\b)");

  private Spoken() {}

  /** Every dash, quotation mark and blank as one kind; nothing that isn't seen. */
  static String plain(String typed) {
    StringBuilder text = new StringBuilder(typed.length());
    typed
        .codePoints()
        .forEach(
            c -> {
              switch (Character.getType(c)) {
                case Character.CONTROL,
                    Character.SPACE_SEPARATOR,
                    Character.LINE_SEPARATOR,
                    Character.PARAGRAPH_SEPARATOR ->
                    text.append(' ');
                case Character.FORMAT, Character.SURROGATE, Character.UNASSIGNED -> {}
                case Character.DASH_PUNCTUATION -> text.append('-');
                default -> text.append(sign(c));
              }
            });
    return text.toString().replaceAll(" {2,}", " ").strip();
  }

  private static String sign(int c) {
    return switch (c) {
      case 0x2212, 0x2043 -> "-";
      case 0x2018, 0x2019, 0x201A, 0x2032 -> "'";
      case 0x201C, 0x201D, 0x201E, 0x00AB, 0x00BB -> "\"";
      case 0x00D7 -> "x";
      case 0x2192, 0x21D2 -> " go to ";
      case 0x2026 -> "...";
      default -> Character.toString(c);
    };
  }

  /** Number words as figures: "thirty-four to forty-nine". */
  static String figures(String words) {
    String figured = BY_FIGURES.matcher(words).replaceAll(m -> Integer.toString(byFigures(m)));
    String big =
        BIG.matcher(figured)
            .replaceAll(
                m ->
                    Integer.toString(
                        hundreds(m.group(1))
                            + 20
                            + 10 * TENS.indexOf(m.group(2).toLowerCase(Locale.ROOT))
                            + unit(m.group(3))));
    String hundreds =
        HUNDREDS
            .matcher(big)
            .replaceAll(
                m -> Integer.toString(hundreds(m.group(1)) + unit(m.group(2)) + unit(m.group(3))));
    Matcher small = SMALL.matcher(hundreds);
    return small.replaceAll(m -> Integer.toString(unit(m.group())));
  }

  private static int byFigures(MatchResult m) {
    int hundreds = 100 * (unit(m.group(1)) + unit(m.group(2)));
    int tens = m.group(5) == null ? 0 : 20 + 10 * TENS.indexOf(m.group(5).toLowerCase(Locale.ROOT));
    return hundreds + unit(m.group(3)) + unit(m.group(4)) + tens + unit(m.group(6));
  }

  private static int hundreds(String word) {
    return word == null ? 0 : 100 * (word.equalsIgnoreCase("a") ? 1 : unit(word));
  }

  private static int unit(String word) {
    return word == null ? 0 : Numerals.value(word).orElse(0);
  }
}
