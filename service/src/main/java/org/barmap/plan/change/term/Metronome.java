package org.barmap.plan.change.term;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/** Reads metronome marks; words without a figure are {@link TempoWords}. */
public final class Metronome {

  private static final Map<String, Double> QUARTERS = new HashMap<>();

  static {
    note(4, "w", "whole", "semibreve", "\uD834\uDD5D", "\uE1D2", "\uECA2");
    note(2, "h", "half", "minim", "\uD834\uDD5E", "\uE1D3", "\uECA3");
    note(1, "q", "quarter", "crotchet", "\u2669", "\uD834\uDD5F", "\uE1D5", "\uECA5");
    note(0.5, "e", "eighth", "quaver", "\u266A", "\uD834\uDD60", "\uE1D7", "\uECA7");
    note(0.25, "s", "sixteenth", "semiquaver", "\uD834\uDD61", "\uE1D9", "\uECA9");
  }

  private static void note(double quarters, String... names) {
    for (String name : names) {
      QUARTERS.put(name, quarters);
    }
  }

  static final String NOTE =
      "(dotted[ -])?(?<![\\p{L}\\p{N}])(whole|semibreve|half|minim|quarter|crotchet|eighth|quaver|sixteenth|semiquaver"
          + "|[whqes]|[\\u2669\\u266A\\uE1D2\\uE1D3\\uE1D5\\uE1D7\\uE1D9\\uECA2\\uECA3\\uECA5\\uECA7\\uECA9]"
          + "|[\\x{1D15D}-\\x{1D161}])(?:[ -]note)?\\s?(\\.|\\x{1D16D}|\\uE1E7|\\uECB7)?";
  private static final Pattern MARK =
      phrase(
          NOTE
              + "\\s*=\\s*(?:ca?\\.?\\s*|circa\\s+)?(\\d{2,3}(?:\\.\\d+)?)(?:\\s*[-\\u2013]\\s*(\\d{2,3}))?(?![\\d])");
  private static final Pattern SHARE =
      phrase("(?<![\\d/])(\\d{1,2})/(1|2|4|8|16)\\s*=\\s*(\\d{2,3}(?:\\.\\d+)?)(?!\\d)");

  /**
   * Figures a metronome mark may have: old metronomes run from 40 to 208, newer ones further
   * (common practice). Anything else was misread.
   */
  private static final double SLOWEST = 20;

  private static final double FASTEST = 400;

  private Metronome() {}

  /**
   * Returns quarters a minute of a metronome mark in the words; the faster one of a range. A mark
   * that no metronome has, or whose bracket is cut off behind the figure, was misread and says
   * nothing.
   */
  public static OptionalDouble quartersPerMinute(String words) {
    return read(composed(words));
  }

  private static OptionalDouble read(String words) {
    Matcher mark = MARK.matcher(words);
    if (mark.find()) {
      if (isCutOff(words, mark.end()) || !isPlausible(mark.group(4))) {
        return OptionalDouble.empty();
      }
      double quarters = noteQuarters(mark.group(1), mark.group(2), mark.group(3));
      String figure = mark.group(5) == null ? mark.group(4) : mark.group(5);
      return OptionalDouble.of(Double.parseDouble(figure) * quarters);
    }
    Matcher share = SHARE.matcher(words);
    return share.find() && !isCutOff(words, share.end()) && isPlausible(share.group(3))
        ? OptionalDouble.of(
            Double.parseDouble(share.group(3)) * quarters(share.group(1) + "/" + share.group(2)))
        : OptionalDouble.empty();
  }

  /**
   * Returns the quarters of a note as {@link #NOTE} finds it: the word for a dot, the note, the
   * sign for a dot.
   */
  static double noteQuarters(@Nullable String dotted, String note, @Nullable String dot) {
    double quarters = QUARTERS.getOrDefault(note.toLowerCase(Locale.ROOT), 1.0);
    return dotted != null || dot != null ? quarters * 1.5 : quarters;
  }

  /** Returns the words with notes made of a head, a stem and flags as the one sign they are. */
  static String composed(String words) {
    return words
        .replace("\uD834\uDD57\uD834\uDD65", "\uD834\uDD5E")
        .replace("\uD834\uDD58\uD834\uDD65\uD834\uDD6E", "\uD834\uDD60")
        .replace("\uD834\uDD58\uD834\uDD65\uD834\uDD6F", "\uD834\uDD61")
        .replace("\uD834\uDD58\uD834\uDD65", "\uD834\uDD5F");
  }

  /** "(q = 11" may have been 112: a bracket was opened, and the words end with the figure. */
  private static boolean isCutOff(String words, int end) {
    return words.lastIndexOf('(', end - 1) > words.lastIndexOf(')', end - 1)
        && words.substring(end).isBlank();
  }

  private static boolean isPlausible(String figure) {
    double value = Double.parseDouble(figure);
    return value >= SLOWEST && value <= FASTEST;
  }

  /** Returns the length of a share of a whole note, "3/8", in quarters. */
  public static double quarters(String share) {
    String[] parts = share.split("/", -1);
    return 4.0 * Integer.parseInt(parts[0]) / Integer.parseInt(parts[1]);
  }
}
