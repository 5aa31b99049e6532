package org.barmap.plan.piece;

import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.map.Bar;
import org.barmap.map.Word;
import org.barmap.plan.change.term.Numerals;

/**
 * A count printed in words: "x4", "4x", "play 4 times", "three times in all" (common practice).
 * "Repeat 3 times" may mean three or four times in all, which is why nobody should write it.
 *
 * @param times how often in all, at least 2
 * @param sure false for "repeat 3 times"
 * @param text the word as printed
 */
public record PrintedTimes(int times, boolean sure, String text) {
  private static final int FLAGS = Pattern.CASE_INSENSITIVE | Pattern.UNICODE_CASE;

  /** As the format of maps has it for the count at a backward repeat. */
  private static final int MOST = 100;

  private static final Pattern COUNT =
      Pattern.compile(
          "\\(?(play(?:ed)?\\s+|repeat(?:ed)?\\s+)?(?:(twice)|("
              + Numerals.CARDINAL
              + ")\\s*(?:x|\\u00D7|times)|(?:x|\\u00D7)\\s*(\\d{1,3}))(?:\\s+in\\s+all)?[.!)]*",
          FLAGS);

  /** Returns what the words over a bar say of how often something is played. */
  public static Optional<PrintedTimes> read(Bar bar) {
    for (Word word : bar.words()) {
      Optional<PrintedTimes> found = read(word.text());
      if (found.isPresent()) {
        return found;
      }
    }
    return Optional.empty();
  }

  /** Returns what one word says of how often something is played. */
  static Optional<PrintedTimes> read(String word) {
    String said = word.strip();
    Matcher m = COUNT.matcher(said);
    if (!m.matches()) {
      return Optional.empty();
    }
    String figure = m.group(3) != null ? m.group(3) : m.group(4);
    OptionalInt times = m.group(2) != null ? OptionalInt.of(2) : Numerals.value(figure);
    boolean again = m.group(1) != null && m.group(1).toLowerCase(Locale.ROOT).startsWith("repeat");
    boolean inAll = said.toLowerCase(Locale.ROOT).contains("in all");
    return times.isEmpty() || times.getAsInt() < 2 || times.getAsInt() > MOST
        ? Optional.empty()
        : Optional.of(new PrintedTimes(times.getAsInt(), !again || inAll, said));
  }
}
