package org.barmap.plan.words.earlier;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * An earlier change that is called as it was said, or without a word before it: "cut 9 to 12 is
 * off", "a cut in 3 is off". It is gone then, and nothing is cut.
 */
final class Bare {
  private static final Pattern GONE =
      phrase(
          "(?:the\\s+|an?\\s+|one\\s+)?(?<noun>cut|vamp|safety|hold|fermata|repeat)(?:\\s+(?:(?:at|from|of|in|on)\\s+)?(?:bars?\\s+)?(?<place>(?!(?:is|are|was|has)\\b)[^,.;]{1,30}?))?(?<gone>\\s+(?:is|are|was|has\\s+been)(?:\\s+(?:now|all|just))*\\s+(?:off|gone|out|cancell?ed|lifted|dead|undone|scrapped|dropped|removed|history)\\b(?<tail>.*))");

  private Bare() {}

  /** Returns words with the change called as an earlier one is; as they are where it is none. */
  static String over(String words) {
    Matcher m = GONE.matcher(words);
    if (!m.matches()) {
      return words;
    }
    String place = m.group("place") == null ? "" : " at " + m.group("place");
    return "the " + m.group("noun") + place + m.group("gone");
  }

  /** Returns the order that it comes to where it is no earlier change that is known. */
  static String order(String words) {
    Matcher m = GONE.matcher(words);
    return m.matches() && m.group("noun").equalsIgnoreCase("cut") && m.group("place") != null
        ? m.group("place") + " back in" + m.group("tail")
        : over(words);
  }
}
