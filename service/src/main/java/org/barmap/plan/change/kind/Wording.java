package org.barmap.plan.change.kind;

import java.util.Optional;
import java.util.function.Function;
import java.util.regex.Pattern;

/**
 * How a kind of change is understood when it is said.
 *
 * @param verbs the words its instructions begin with, alternatives of a regular expression; where
 *     one of them follows a comma, another instruction begins. May be empty.
 * @param reader returns what was heard, empty when it is about something else
 */
public record Wording(String verbs, Function<Told, Optional<Heard>> reader) {

  /** For all patterns of words. */
  static final int FLAGS = Pattern.CASE_INSENSITIVE | Pattern.UNICODE_CASE;
}
