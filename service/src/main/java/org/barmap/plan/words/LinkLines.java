package org.barmap.plan.words;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.plan.change.WrittenNumber;

/**
 * Puts the number first where words about a link name it behind: "segue after No. 3", "attacca from
 * 3 into 4", "after No. 3: applause"; "attacca into No. 4" is about the number before it.
 */
final class LinkLines {
  private static final String HOW =
      "((?:no\\s+|direct\\s+|applause\\s+)?(?:segue|attacca)(?:\\s+as\\s+one|\\s+subito)?|(?:go\\s+)?straight(?:\\s+on)?(?=\\s+(?:in)?to\\s)|applause|wait\\s+for\\s+(?:the\\s+)?(?:applause|cue))";
  private static final String NO = "(?:(?:the\\s+end\\s+of\\s+)?(?:(?:no|nr)\\b\\.?|number|#)\\s*)";
  private static final String LABEL = "(\\d{1,4}[a-z]{0,2})";
  private static final String INTO =
      "(?:\\s*,?\\s+(?:(?:in|on)\\s*to|to)\\s+" + NO + "?" + LABEL + ")";
  private static final Pattern HOW_FROM =
      phrase(
          HOW
              + "\\s+(?:after|from)\\s+"
              + NO
              + "?"
              + LABEL
              + INTO
              + "?(\\s*,?\\s+(?:on|at|after|when|as)\\s.+?)?\\.?");
  private static final Pattern AFTER =
      phrase("(?:after|from)\\s+" + NO + LABEL + "\\s*[:,]?\\s+(.*)");
  private static final Pattern INTO_ONLY = phrase(HOW + INTO + "\\.?");

  private LinkLines() {}

  /**
   * Returns the line with its number first, or as it is.
   *
   * @param within the number named before
   */
  static String numberFirst(
      String line, List<WrittenNumber> numbers, Optional<WrittenNumber> within) {
    Matcher from = HOW_FROM.matcher(line);
    if (from.matches()) {
      String to = from.group(3) == null ? "" : " to " + from.group(3);
      String cue = from.group(4) == null ? "" : from.group(4);
      return "No. " + from.group(2) + ": " + from.group(1) + to + cue;
    }
    Matcher after = AFTER.matcher(line);
    if (after.matches() && phrase(HOW + ".*").matcher(after.group(2)).matches()) {
      return "No. " + after.group(1) + ": " + after.group(2);
    }
    Matcher into = INTO_ONLY.matcher(line);
    if (into.matches() && within.isEmpty()) {
      for (int i = 1; i < numbers.size(); i++) {
        if (numbers.get(i).label().equalsIgnoreCase(into.group(2))) {
          return "No. " + numbers.get(i - 1).label() + ": " + line;
        }
      }
    }
    return line;
  }
}
