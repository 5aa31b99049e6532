package org.barmap.plan.pass;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.map.Word;
import org.barmap.plan.change.effect.PassRule;
import org.barmap.plan.change.term.Pass;

/**
 * Printed words about playing in some passes and not in others: "2nd time only", "tacet 1st X",
 * "play last time" (common practice). How something is played in a pass ("2nd time 8va") is no such
 * word.
 *
 * @param rule what holds; empty where the words end what held: "both times", "play"
 * @param text the words
 * @param toTheEnd they say themselves that they hold to the end: "tacet al fine"
 */
record PassWords(Optional<PassRule> rule, String text, boolean toTheEnd) {
  private static final String PASS = "(" + Pass.SAID + "|\\d\\s*x)";
  private static final Pattern ONLY =
      phrase("(?:play\\s+)?(?:only\\s+)?" + PASS + "\\s+only|(?:only|play)\\s+" + PASS);
  private static final Pattern JUMP_ONLY =
      phrase("(?:play\\s+)?(d\\.?\\s*[cs]\\.?|da\\s+capo|dal\\s+segno)\\s+only");
  private static final Pattern NOT =
      phrase(
          "(?:tacet|not|don['\\u2019]?t\\s+play)\\s+"
              + PASS
              + "(?:\\s+only)?|"
              + PASS
              + "(?:\\s+only)?\\s*[:,]?\\s+tacet");
  private static final Pattern ALL =
      phrase("(?:play\\s+)?(?:both|all|every)\\s+(?:times?|x)|tutti|play");
  private static final Pattern TACET =
      phrase("tacet(\\s+(?:al\\s+fine|al\\s+coda|to\\s+(?:the\\s+)?(?:end|fine)))?");

  /** Returns what the words at a bar say about passes; the first that says something counts. */
  static Optional<PassWords> read(List<Word> words) {
    return words.stream().flatMap(w -> read(w.text()).stream()).findFirst();
  }

  private static Optional<PassWords> read(String printed) {
    String text = printed.strip().replaceAll("^[(\\[]\\s*|\\s*[)\\]]$", "").replaceAll("\\s+", " ");
    Matcher only = ONLY.matcher(text);
    if (only.matches()) {
      return rule(PassRule.Does.ONLY, group(only), printed);
    }
    Matcher jump = JUMP_ONLY.matcher(text);
    if (jump.matches()) {
      return rule(PassRule.Does.ONLY, "on the " + jump.group(1), printed);
    }
    Matcher not = NOT.matcher(text);
    if (not.matches()) {
      return rule(PassRule.Does.NOT, group(not), printed);
    }
    Matcher tacet = TACET.matcher(text.replaceFirst("\\.$", ""));
    if (tacet.matches()) {
      PassRule never = new PassRule(PassRule.Does.NOT, Optional.empty());
      return Optional.of(new PassWords(Optional.of(never), printed, tacet.group(1) != null));
    }
    return ALL.matcher(text).matches()
        ? Optional.of(new PassWords(Optional.empty(), printed, false))
        : Optional.empty();
  }

  private static String group(Matcher m) {
    return m.group(1) == null ? m.group(2) : m.group(1);
  }

  /** "2x only" over a bar is the second time; "play 2x" would be twice, which is no pass. */
  private static Optional<PassWords> rule(PassRule.Does does, String said, String printed) {
    boolean figure = said.matches("\\d\\s*[xX]");
    if (figure && printed.matches("(?i)\\W*play\\s+\\d\\s*x\\W*")) {
      return Optional.empty();
    }
    Optional<Pass> pass = figure ? Optional.of(Pass.of(said.substring(0, 1))) : Pass.read(said);
    return pass.map(
        p -> new PassWords(Optional.of(new PassRule(does, Optional.of(p))), printed, false));
  }
}
