package org.barmap.plan.change.term;

import static org.barmap.plan.change.term.Phrase.phrase;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * One time through bars that are played more than once.
 *
 * @param word as the format has it: {@code 1}, {@code 2} …, {@code last}, or {@code after-jump} for
 *     every time after a D.C. or D.S.
 */
public record Pass(@JsonValue String word) {

  /** The last time. */
  public static final Pass LAST = new Pass("last");

  /** Every time after a D.C. or D.S. */
  public static final Pass AFTER_JUMP = new Pass("after-jump");

  private static final String JUMP = "(?:d\\.?\\s*[cs]\\b\\.?|da\\s+capo|dal\\s+segno)";

  /** Matches a pass as it is said, without groups: "the 2nd time", "last X", "on the D.C.". */
  public static final String SAID =
      "(?:(?:on\\s+|in\\s+)?(?:the\\s+)?(?:"
          + Numerals.ORDINAL
          + "|last|final)\\s*(?:time|x|pass)(?:\\s+(?:through|round|around))?"
          + "|on\\s+the\\s+repeat|(?:(?:on|after|in)\\s+)(?:the\\s+)?"
          + JUMP
          + ")";

  private static final Pattern NAMED =
      phrase("(?:(?:on|in)\\s+)?(?:the\\s+)?(\\w+?)\\s*(?:time|x|pass)\\b.*");
  private static final Pattern BEHIND = phrase("(.+?)\\s*,?\\s+\\(?(" + SAID + ")(\\s+only)?\\)?");

  private static final Pattern AHEAD =
      phrase("(?:only\\s+)?(" + SAID + ")(\\s+only)?\\s*[:,]?\\s+(?:only\\s+|you\\s+|we\\s+)*(.+)");
  private static final Pattern INSIDE =
      phrase(
          "(.+?)\\s*,?\\s+\\(?("
              + SAID
              + ")(\\s+only)?\\)?((?:\\s*,)?\\s+(?:till|until|'?til|out|on|leave|left)\\b.+)");

  /** Reads the word of the format. */
  @JsonCreator
  public static Pass of(String word) {
    return new Pass(word);
  }

  /** Returns the pass that words say, which {@link #SAID} matches. */
  public static Optional<Pass> read(String words) {
    if (words.strip().toLowerCase(Locale.ROOT).endsWith("repeat")) {
      return Optional.of(new Pass("2"));
    }
    Matcher named = NAMED.matcher(words.strip());
    if (!named.matches()) {
      return phrase(".*" + JUMP).matcher(words.strip()).matches()
          ? Optional.of(AFTER_JUMP)
          : Optional.empty();
    }
    String which = named.group(1).toLowerCase(Locale.ROOT);
    if (which.equals("last") || which.equals("final")) {
      return Optional.of(LAST);
    }
    OptionalInt nth = Numerals.value(which);
    return nth.isPresent() && nth.getAsInt() > 0
        ? Optional.of(new Pass(Integer.toString(nth.getAsInt())))
        : Optional.empty();
  }

  /**
   * Words with a pass behind them.
   *
   * @param words without it
   * @param pass what was said behind them, where something was
   * @param only whether "only" was
   */
  public record Behind(String words, Optional<Pass> pass, boolean only) {}

  /** Takes a pass off the end of words: "3 to 4 first time". */
  public static Behind behind(String words) {
    Matcher m = BEHIND.matcher(words.strip());
    Optional<Pass> pass = m.matches() ? read(m.group(2)) : Optional.empty();
    return pass.isEmpty()
        ? new Behind(words, Optional.empty(), false)
        : new Behind(m.group(1), pass, m.group(3) != null);
  }

  /**
   * Takes a pass off words, wherever it stands by itself: behind them, before them ("last time
   * only: hold 28"), or before what comes behind bars ("5 to 6 2nd time till the cue").
   */
  public static Behind off(String words) {
    Behind behind = behind(words);
    if (behind.pass().isPresent()) {
      return behind;
    }
    Matcher led = AHEAD.matcher(words.strip());
    Optional<Pass> pass = led.matches() ? read(led.group(1)) : Optional.empty();
    if (pass.isPresent()) {
      return new Behind(led.group(3), pass, led.group(2) != null);
    }
    Matcher inside = INSIDE.matcher(words.strip());
    Optional<Pass> there = inside.matches() ? read(inside.group(2)) : Optional.empty();
    return there.isPresent()
        ? new Behind(inside.group(1) + inside.group(4), there, inside.group(3) != null)
        : behind;
  }

  /** Returns which time it is, where it has a number. */
  public OptionalInt nth() {
    return word.matches("\\d{1,3}") ? OptionalInt.of(Integer.parseInt(word)) : OptionalInt.empty();
  }

  /** Returns it in a sentence: "2nd time", "last time", "after the D.C. or D.S.". */
  public String says() {
    return nth().isPresent()
        ? Numerals.ordinal(nth().getAsInt()) + " time"
        : equals(LAST) ? "last time" : "on the D.S.";
  }

  /** Returns it as it is written into a book: "2nd X". */
  public String sign() {
    return says().replace(" time", " X");
  }
}
