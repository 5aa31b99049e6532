package org.barmap.plan.change.term;

import java.util.regex.Pattern;

/** Words as people say, type and print them. */
public final class Phrase {
  private static final int FLAGS = Pattern.CASE_INSENSITIVE | Pattern.UNICODE_CASE;

  private Phrase() {}

  /** Returns the pattern of a regular expression, upper and lower case alike in all alphabets. */
  public static Pattern phrase(String regex) {
    return Pattern.compile(regex, FLAGS);
  }
}
