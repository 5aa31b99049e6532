package org.barmap.plan.change.say;

import java.util.Optional;
import java.util.function.Function;
import java.util.regex.Pattern;

/**
 * How a kind of change is understood when it is said.
 *
 * @param <C> the kinds of change
 * @param verbs the words its instructions begin with, alternatives of a regular expression; where
 *     one of them follows a comma, another instruction begins. May be empty.
 * @param reader returns what was heard, empty when it is about something else
 */
public record Wording<C>(String verbs, Function<Told<C>, Optional<Heard<C>>> reader) {

  /** For all patterns of words. */
  public static final int FLAGS = Pattern.CASE_INSENSITIVE | Pattern.UNICODE_CASE;
}
