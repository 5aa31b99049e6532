package org.barmap.plan.change.term;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What words say of how the next number follows (common practice).
 *
 * @param link how
 * @param to label of the number that follows, where it is named
 * @param back the words stand at the number that follows and look back: "segue from No. 3"
 */
public record LinkWords(Link link, Optional<String> to, boolean back) {
  private static final String SEGUE = "(?:segue|seque|seg\\.)";
  private static final String ATTACCA = "(?:attacc?a|att\\.)";
  private static final String WORD = "(?<!\\p{L})(?:" + SEGUE + "|" + ATTACCA + ")(?!\\p{L})";
  private static final Pattern ANY = phrase(WORD);
  private static final Pattern NOT =
      phrase(
          "(?<!\\p{L})(?:no|not|non|don['\\u2019]?t|do not|without|never)\\s+(?:a\\s+|an\\s+)?(?:direct\\s+)?"
              + WORD);
  private static final Pattern AT_ONCE =
      phrase(
          ATTACCA
              + "|(?:direct(?:ly)?|immediate(?:ly)?)\\s+"
              + SEGUE
              + "|"
              + SEGUE
              + "\\s+(?:direct(?:ly)?|immediate(?:ly)?|at once|subito)");
  private static final Pattern AS_ONE =
      phrase(SEGUE + "\\s+(?:as\\s+(?:one|1)|in\\s+(?:time|tempo))(?!\\p{L})");
  private static final Pattern APPLAUSE = phrase("(?<!\\p{L})(?:applause|appl\\.)");
  private static final Pattern WAIT =
      phrase("(?<!\\p{L})(?:wait for|after|on|hold for)\\s+(?:the\\s+)?applause");
  private static final Pattern CUE = phrase("(?<!\\p{L})cue(?!\\p{L})");
  private static final Pattern SCENE =
      phrase(
          "(?<!\\p{L})(?:dialog(?:ue)?|scene)\\s+follows|(?:"
              + SEGUE
              + ")\\s+(?:to|into)\\s+(?:dialog(?:ue)?|scene)");
  private static final Pattern TO =
      phrase(
          "(?:"
              + WORD
              + "|\\bas one\\b|\\bsubito\\b)[\\s:,-]*(?:directly\\s+)?(?:(?:on\\s*to|into|in|to|al|il)\\s+)?"
              + "(?:(?:the\\s+)?(?:no|nr|num)\\b\\.?|number|#|\\u2116)?\\s*(\\d{1,3}(?!\\s*(?:x|bars?|times?)\\b)[a-z]?)(?![\\p{L}\\p{N}])");
  private static final Pattern BACK = phrase(WORD + ".*?\\b(?:from|after)\\b");

  /** Reads printed words; empty where they say nothing of it. */
  public static Optional<LinkWords> read(String words) {
    if (words.length() > 200) {
      return Optional.empty();
    }
    boolean named = ANY.matcher(words).find();
    Matcher to = TO.matcher(words);
    Optional<String> target =
        to.find() ? Optional.of(to.group(1).toUpperCase(Locale.ROOT)) : Optional.empty();
    boolean applause = APPLAUSE.matcher(words).find();
    boolean back = !applause && BACK.matcher(words).find() || words.matches("(?i).*\\bfrom\\b.*");
    if (NOT.matcher(words).find()) {
      Link then =
          applause ? Link.APPLAUSE_SEGUE : CUE.matcher(words).find() ? Link.SEGUE : Link.BREAK;
      return Optional.of(new LinkWords(then, Optional.empty(), back));
    }
    if (SCENE.matcher(words).find()) {
      return Optional.of(new LinkWords(Link.BREAK, Optional.empty(), back));
    }
    if (named || WAIT.matcher(words).find()) {
      return Optional.of(new LinkWords(how(words, applause), target, back && named));
    }
    return Optional.empty();
  }

  private static Link how(String words, boolean applause) {
    if (applause) {
      return Link.APPLAUSE_SEGUE;
    }
    if (AS_ONE.matcher(words).find()) {
      return Link.SEGUE_AS_ONE;
    }
    return AT_ONCE.matcher(words).find() ? Link.ATTACCA : Link.SEGUE;
  }
}
