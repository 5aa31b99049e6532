package org.barmap.plan.change.say;

import java.util.Optional;
import java.util.function.BiFunction;
import java.util.function.Function;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.plan.change.term.Phrase;

/**
 * How a kind of change is understood when it is said.
 *
 * @param <C> the kinds of change
 * @param verbs the words its instructions begin with, alternatives of a regular expression; where
 *     one of them follows a comma, another instruction begins. May be empty.
 * @param reader returns what was heard, empty when it is about something else
 */
public record Wording<C>(String verbs, Function<Told<C>, Optional<Heard<C>>> reader) {

  /**
   * Returns the wording of instructions that one pattern matches as a whole.
   *
   * @param pattern a regular expression, upper and lower case alike
   * @param reader returns what was heard, from the match
   */
  public static <C> Wording<C> of(
      String verbs, String pattern, BiFunction<Told<C>, Matcher, Optional<Heard<C>>> reader) {
    Pattern compiled = Phrase.phrase(pattern);
    return new Wording<>(
        verbs,
        told -> {
          Matcher match = compiled.matcher(told.words());
          return match.matches() ? reader.apply(told, match) : Optional.empty();
        });
  }

  /**
   * Returns the wording of what is said of a whole number.
   *
   * @param make makes the change
   * @param says what was understood
   */
  public static <C> Wording<C> whole(
      String verbs, String pattern, Function<Told<C>, C> make, String says) {
    return of(
        verbs, pattern, (told, match) -> Optional.of(told.understood(make.apply(told), says)));
  }
}
