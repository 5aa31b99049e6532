package org.barmap.plan.words;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Brings a line that names its numbers in another way than at its front to the form the other
 * readers know: "Nos. 5 and 6 are cut", "cut 13 to 20, and in 6 cut 5 to 8", "the top of 6 is in
 * two", "after 28 in No. 5 go to bar 9 of No. 6".
 */
final class Lines {
  private static final String NO = "(?:(?:no|nr)\\b\\.?|number|#|\\u2116)\\s*";
  private static final String LABEL = "\\d{1,4}[A-Za-z]{0,2}";
  private static final String AND = "(?:\\s*,\\s*(?:and\\s+)?|\\s*&\\s*|\\s+and\\s+)";
  private static final String LIST =
      "(?:(?:nos|numbers)\\b\\.?\\s*|"
          + NO
          + "(?="
          + LABEL
          + AND
          + NO
          + "))("
          + LABEL
          + "(?:"
          + AND
          + "(?:"
          + NO
          + ")?"
          + LABEL
          + ")+)";
  private static final Pattern MANY =
      phrase("(?:(cut|tacet|skip|omit|drop|lose)\\s+)?" + LIST + "\\s*:?\\s*(.*)");
  private static final Pattern SPLIT = phrase(AND + "(?:" + NO + ")?");
  private static final Pattern NEXT_NUMBER =
      phrase(
          "\\s*,?\\s+(?:and|then)\\s+(?=(?:in|for)\\s+(?:"
              + NO
              + ")?"
              + LABEL
              + "\\b[,:]?\\s+"
              + Sentences.VERB
              + "\\b)|\\s*,\\s*(?:and\\s+|then\\s+)?(?="
              + NO
              + LABEL
              + "\\s*:)");
  private static final Pattern TOP =
      phrase(
          "(?:the\\s+)?(?:top|beginning|start)\\s+of\\s+(?:"
              + NO
              + ")?("
              + LABEL
              + ")\\b,?\\s+(.+)");
  private static final Pattern BAR_OF =
      phrase(
          "\\b(?:bar\\s+)?(\\d{1,4}[A-Za-z]?|[A-Z]|(?:the\\s+)?(?:end|top|beginning|start))\\s+(?:in|of)\\s+"
              + NO
              + "("
              + LABEL
              + ")\\b");
  private static final Pattern OVER =
      phrase(
          "cut\\s+(?:from\\s+)?"
              + NO
              + "("
              + LABEL
              + "),?\\s+(?:bar\\s+)?(\\S+)\\s+(through|thru|to)\\s+"
              + NO
              + "("
              + LABEL
              + "),?\\s+(?:bar\\s+)?(\\S+)");

  private Lines() {}

  /** Returns the lines that a sentence stands for; itself where it is one. */
  static List<String> of(String sentence, Names names) {
    Matcher many = MANY.matcher(sentence);
    if (many.matches()) {
      String verb = many.group(1) == null ? "" : many.group(1) + " ";
      String rest = many.group(3).replaceFirst("(?i)^(?:are|were)\\b\\s*", "is ");
      List<String> lines = new ArrayList<>();
      for (String label : SPLIT.split(many.group(2))) {
        lines.add("No. " + label + ": " + (verb + rest).strip());
      }
      return List.copyOf(lines);
    }
    List<String> lines = new ArrayList<>();
    for (String part : NEXT_NUMBER.split(sentence)) {
      lines.add(one(part, names));
    }
    return List.copyOf(lines);
  }

  private static String one(String line, Names names) {
    Matcher top = TOP.matcher(line);
    if (top.matches() && names.byLabel(top.group(1)).isPresent()) {
      return "No. " + top.group(1) + ": start " + top.group(2);
    }
    boolean two = BAR_OF.matcher(line).results().count() > 1;
    String named = two ? BAR_OF.matcher(line).replaceAll("No. $2 bar $1") : line;
    Matcher over = OVER.matcher(named);
    if (!over.matches() || over.group(1).equalsIgnoreCase(over.group(4))) {
      return named;
    }
    boolean lands = over.group(3).equalsIgnoreCase("to") && !over.group(5).matches("\\d.*");
    return "from No. "
        + over.group(1)
        + " bar 1 before "
        + over.group(2)
        + " to No. "
        + over.group(4)
        + " bar "
        + (lands ? over.group(5) : "1 after " + over.group(5));
  }
}
