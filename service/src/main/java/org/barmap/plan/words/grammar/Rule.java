package org.barmap.plan.words.grammar;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.BiFunction;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * One form of a sentence.
 *
 * @param form matches all of a tidied sentence
 * @param means what it comes to; empty where it isn't this form after all
 */
record Rule(Pattern form, BiFunction<Matcher, Bars, Optional<Meant>> means) {

  static Rule of(String form, BiFunction<Matcher, Bars, Optional<Meant>> means) {
    return new Rule(phrase("(?:" + form + ")"), means);
  }

  /** A form whose parts are put into other words. */
  static Rule put(String form, String instruction) {
    return of(form, (m, bars) -> Optional.of(Meant.says(m.replaceFirst(instruction).strip())));
  }

  static Rule remark(String form) {
    return of(form, (m, bars) -> Optional.of(new Meant.Remark()));
  }

  /** Returns what a sentence may come to, the likelier first. */
  static List<Meant> all(List<Rule> rules, String words, Bars bars) {
    List<Meant> all = new ArrayList<>();
    for (Rule rule : rules) {
      Matcher m = rule.form().matcher(words);
      if (m.matches()) {
        rule.means().apply(m, bars).ifPresent(all::add);
      }
    }
    return all;
  }

  /** Takes a list of bars apart: "3, 5 and 7 to 9". */
  static List<String> items(String list) {
    return List.of(list.split("\\s*,\\s*(?:and\\s+)?|\\s+and\\s+|\\s*&\\s*"));
  }

  /** Returns a group, or nothing where it took no part. */
  static String group(Matcher m, String name) {
    String text = m.group(name);
    return text == null ? "" : text.strip();
  }
}
