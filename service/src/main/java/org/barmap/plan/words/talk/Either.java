package org.barmap.plan.words.talk;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** "We go either to C or to D": nobody has decided yet, and both ways are shown. */
public final class Either {
  private static final Pattern OR =
      phrase(
          "(?<front>.*?)\\beither\\s+(?<one>[^,;]+?)\\s+or\\s+(?<other>[^,;]+?)(?:,\\s+(?:we'll|i'll|it|that|let's|i)\\b.*)?");
  private static final Pattern WAY = phrase("(to|at|in|from|after|before|on)\\s+(?<place>.+)");

  private Either() {}

  /** Returns the two ways as they would be said; nothing where there are none. */
  public static List<String> ways(String said) {
    Matcher m = OR.matcher(said.replaceFirst("[.!?\\s]+$", ""));
    if (!m.matches()) {
      return List.of();
    }
    String one = m.group("one");
    String other = m.group("other");
    Matcher first = WAY.matcher(one);
    boolean bare = other.matches("(?i)(?:bar |letter )?(?:\\d{1,4}[a-z]?|[a-z]{1,2})");
    String second = first.matches() && bare ? first.group(1) + " " + other : other;
    return List.of(m.group("front") + one, m.group("front") + second);
  }
}
