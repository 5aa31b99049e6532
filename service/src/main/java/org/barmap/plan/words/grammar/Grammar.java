package org.barmap.plan.words.grammar;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/** Reads one sentence about one number. */
public final class Grammar {
  private static final List<Rule> READ =
      Stream.of(Timing.RULES, Negated.RULES, Players.RULES, Places.RULES, Asked.RULES)
          .flatMap(List::stream)
          .toList();

  /** These would be heard as a change for good, and may be none. */
  private static final Pattern FROM =
      phrase(
          "(?:wait|hold|pause|rest)\\s+(?:\\d{1,2}|a|one|two|three|four|six|eight)\\s+(?:more\\s+|extra\\s+)?bars?\\s+(?:before|after)\\s.+|.*\\b(?:stick|squeeze|slip|fit)\\s+.*\\bbars?\\s.*\\b(?:round|around|near)\\s.+|(?:(?:let's|we|please|so|okay)\\s+)*(?:take\\s+it|pick(?:\\s+it)?\\s+up)\\s+(?:from|at)\\s.+|"
              + Asked.ENDING);

  private Grammar() {}

  private static final Pattern BOTH =
      phrase(
          "(?:pizz|arco)\\b.*,?\\s+(?:and\\s+|then\\s+)*(?:pizz|arco)\\.?\\s+(?:after(?:\\s+(?:that|it))?|from\\s+there.*|thereafter|again)[.]?");

  /** Whether a sentence is one: on a condition, or with a part that leans on another. */
  public static boolean whole(String words) {
    return Asked.condition(words).isPresent() || BOTH.matcher(words).matches();
  }

  /** What has to be asked before a sentence is taken as it stands. */
  public static Optional<Meant> first(String words, Bars bars) {
    Optional<Meant> condition = Asked.condition(words);
    return condition.isPresent() || !FROM.matcher(words).matches()
        ? condition
        : Rule.all(Asked.RULES, Tidy.words(words), bars).stream().findFirst();
  }

  /**
   * What a sentence may mean that the kinds of change don't read as it stands, the likelier first.
   */
  public static List<Meant> read(String words, Bars bars) {
    return Rule.all(READ, Tidy.words(words), bars);
  }

  /** Puts what one waits for behind what is done: "till she sits, vamp 9". */
  public static String turned(String words) {
    return words.replaceFirst(
        "(?i)^((?:we|then|and)\\s+)?(?:until|till|'?til)\\s+([^,]*\\p{L}{2}[^,]*),\\s*(?:we\\s+|you\\s+)?((?:vamp|loop|hold|wait|keep|repeat)\\b.*)$",
        "$3 till $2");
  }

  /** Returns instructions that a sentence is near to which nobody could follow. */
  public static List<String> nearest(String words, Bars bars) {
    return Sounds.nearest(Tidy.words(words), bars);
  }

  /** Returns a sentence in the words that the rules know, to be tried as it is. */
  public static String tidy(String words) {
    return Tidy.words(words);
  }
}
