package org.barmap.plan.words;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.plan.change.WrittenNumber;

/**
 * Puts first the number that a line calls by its bare label or by its title: "5 now vamps at 21",
 * "electric from the top of 6", "cut the playoff", "move 2 after 3", "6 follows the applause for
 * 5".
 */
final class NumberFirst {
  private static final String NO = "(?:(?:(?:no|nr)\\b\\.?|number|#)\\s*)?";
  private static final String LABEL = "(\\d{1,4}[A-Za-z]{0,2})";
  private static final String NEXT_TO =
      "\\s+(?:(?:now|right|straight|directly|immediately|just)\\s+)*(before|after|ahead\\s+of|in\\s+front\\s+of|behind)\\s+";
  private static final String MUSIC =
      "(?:\\s+music)?(?:\\s+(?:after|before|following|behind|in)\\s+" + NO + "\\w{1,5})?";
  private static final Pattern DOES =
      phrase(
          LABEL
              + "\\s+(?:(?:now|also|just|then)\\s+)*((?:vamps|starts|begins|runs|has|gets|plays|ends|stops)\\b.*)");
  private static final Pattern TOP =
      phrase(
          "(.+?)\\s+(?:from|at)\\s+(?:the\\s+)?(?:very\\s+)?(?:top|beginning|start|head)\\s+of\\s+"
              + NO
              + LABEL
              + "[.!]?");
  private static final Pattern MOVE =
      phrase(
          "(?:move|put|do|play)\\s+"
              + NO
              + LABEL
              + "(?:\\s+to)?"
              + NEXT_TO
              + NO
              + LABEL
              + "[.!]?|"
              + NO
              + LABEL
              + "\\s+(?:now\\s+)?(?:is|comes|goes|moves|moved)"
              + NEXT_TO.replaceFirst("^\\\\\\\\s\\+", "")
              + NO
              + LABEL
              + "[.!]?");
  private static final Pattern APPLAUSE =
      phrase(
          NO
              + LABEL
              + "\\s+(?:comes|goes|follows|starts|begins|is)\\s+(?:(?:right|straight|directly|immediately|just)\\s+)*(?:(?:after|on|out\\s+of|with)\\s+)?(?:the\\s+)?applause\\s+(?:for|of|after|from|to)\\s+"
              + NO
              + LABEL
              + "[.!]?");
  private static final Pattern FOLLOWS =
      phrase(
          NO
              + LABEL
              + "\\s+(?:follows|comes\\s+after|goes\\s+after|starts\\s+after)\\s+"
              + NO
              + LABEL
              + ",?\\s+(?:directly|immediately|at\\s+once|straight\\s+on|straight\\s+away|attacca|without\\s+(?:a\\s+)?(?:break|pause)|with\\s+no\\s+(?:break|pause))[.!]?");
  private static final Pattern BETWEEN =
      phrase("(.+?)\\s+between\\s+" + NO + LABEL + "\\s+and\\s+" + NO + LABEL + "[.!]?");
  private static final Pattern AT_ONCE =
      phrase(
          "(?:(?:there's|there\\s+is|we)\\s+)?(?:no(?:thing)?(?:\\s+(?:break|pause|stop|gap|time|talk\\w*|dialogue))?|(?:go\\s+)?straight(?:\\s+on)?|do(?:n't|\\s+not)\\s+stop|attacca)");
  private static final Pattern ON_CUE =
      phrase("(?:wait|hold)\\s+for\\s+.*|segue|(?:on|my|a)\\s+.*\\b(?:cue|downbeat|nod)\\b.*");
  private static final Pattern CLAPPING = phrase(".*\\b(?:applause|clapping|hand)\\b.*");
  private static final Pattern CUT_TITLE =
      phrase(
          "(?:cut|skip|omit|drop|lose|no|without|leave\\s+out|take\\s+out|kill|scrap)\\s+(?:the\\s+)?(.+?)"
              + MUSIC
              + "(?:\\s+(?:altogether|completely|entirely|for\\s+good))?[.!]?");
  private static final Pattern TITLE_OUT =
      phrase(
          "(?:the\\s+)?(.+?)"
              + MUSIC
              + "\\s+(?:(?:is|are|goes|now|all)\\s+)*(cut|out|gone|off|tacet)[.!]?");

  private NumberFirst() {}

  /**
   * Returns the line with its number first, or as it is.
   *
   * @param named a number was named before, so that bare figures are bars
   */
  static String of(String line, Names names, boolean named) {
    Matcher cut = CUT_TITLE.matcher(line);
    if (cut.matches() && names.called(cut.group(1)).isPresent()) {
      return "No. " + label(names, cut.group(1)) + ": cut";
    }
    Matcher out = TITLE_OUT.matcher(line);
    if (out.matches() && names.called(out.group(1)).isPresent()) {
      boolean silent = out.group(2).equalsIgnoreCase("tacet");
      return "No. " + label(names, out.group(1)) + ": " + (silent ? "tacet" : "cut");
    }
    return named ? line : bare(line, names);
  }

  private static String bare(String line, Names names) {
    Matcher move = MOVE.matcher(line);
    if (move.matches()) {
      int at = move.group(1) == null ? 4 : 1;
      String where = move.group(at + 1).matches("(?i)after|behind") ? " after " : " before ";
      if (both(names, move.group(at), move.group(at + 2))) {
        return "No. " + move.group(at) + where + "No. " + move.group(at + 2);
      }
    }
    Matcher applause = APPLAUSE.matcher(line);
    if (applause.matches() && both(names, applause.group(1), applause.group(2))) {
      return "No. " + applause.group(2) + ": applause segue to " + applause.group(1);
    }
    Matcher follows = FOLLOWS.matcher(line);
    if (follows.matches() && both(names, follows.group(1), follows.group(2))) {
      return "No. " + follows.group(2) + ": attacca " + follows.group(1);
    }
    Matcher between = BETWEEN.matcher(line);
    if (between.matches() && both(names, between.group(2), between.group(3))) {
      String how = between(between.group(1));
      return how.isEmpty()
          ? line
          : "No. " + between.group(2) + ": " + how + " to " + between.group(3);
    }
    Matcher top = TOP.matcher(line);
    if (top.matches() && names.byLabel(top.group(2)).isPresent()) {
      return "No. " + top.group(2) + ": " + top.group(1) + " at start";
    }
    Matcher does = DOES.matcher(line);
    return does.matches() && names.byLabel(does.group(1)).isPresent()
        ? "No. " + does.group(1) + ": " + does.group(2)
        : line;
  }

  private static String between(String said) {
    if (AT_ONCE.matcher(said).matches()) {
      return "attacca";
    }
    boolean no = said.matches("(?i).*\\b(?:no|not|don't|without)\\b.*");
    if (CLAPPING.matcher(said).matches()) {
      return no ? "" : "applause segue";
    }
    return !no && ON_CUE.matcher(said).matches() ? "segue" : "";
  }

  private static boolean both(Names names, String one, String other) {
    return names.byLabel(one).isPresent() && names.byLabel(other).isPresent();
  }

  private static String label(Names names, String title) {
    return names.called(title).map(WrittenNumber::label).orElse("");
  }
}
