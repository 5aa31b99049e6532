package org.barmap.plan.change.say;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Words of the form "what at where: note".
 *
 * @param what what is asked for
 * @param where the bar
 * @param note a remark behind a colon
 */
public record AtBar(String what, String where, Optional<String> note) {
  private static final Pattern AT =
      phrase("(.+?)\\s+(?:at|from|in)\\s+(?:bar\\s+)?(.+?)(?::\\s*(.+))?");

  /** Reads such words; empty where they have another form. */
  public static Optional<AtBar> read(String words) {
    Matcher m = AT.matcher(words);
    return m.matches()
        ? Optional.of(
            new AtBar(m.group(1).strip(), m.group(2).strip(), Optional.ofNullable(m.group(3))))
        : Optional.empty();
  }
}
