package org.barmap.plan.words.doubt;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Heard;

/**
 * Asks where bars are said from a later to an earlier one: "cut 9 to 3", when 3 is a number too.
 */
public final class Backwards {
  private static final Pattern CUT =
      phrase(
          "\\b(?:cut|omit|skip|drop|lose)\\s+(?:from\\s+)?(?:(?:bars?|measures?)\\s+)?(\\d{1,4})"
              + "\\s*(?:\\b(?:to|through|thru|until|till)\\b|-)\\s*(?:bar\\s+)?(\\d{1,4})\\b"
              + "(?!\\s*(?:bars?|measures?|beats?|before|after|of)\\b|[.:/]\\d)");

  private Backwards() {}

  /** Returns what was made of a message, cuts asked back where it says them backwards. */
  public static List<Heard<ShowChange>> of(String line, List<Heard<ShowChange>> those) {
    Matcher cut = CUT.matcher(line);
    while (cut.find()) {
      if (Integer.parseInt(cut.group(2)) < Integer.parseInt(cut.group(1))) {
        String question = cut.group(1) + " to " + cut.group(2) + " goes back: which bars are out?";
        return those.stream().map(h -> asked(h, question)).toList();
      }
    }
    return those;
  }

  private static Heard<ShowChange> asked(Heard<ShowChange> one, String question) {
    if (!(one instanceof Heard.Understood<ShowChange> u) || !u.change().kind().equals("cut")) {
      return one;
    }
    return new Heard.AskedBack<>(u.said(), question, List.of(), u.reading().stream().toList());
  }
}
