package org.barmap.plan.words.doubt;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.Optional;
import java.util.regex.Pattern;

/** What stands beside an order and makes it none: "aren't we?", "just kidding", "not 16". */
final class Turned {

  /** Somebody wants to hear that it is so. */
  private static final Pattern TAG =
      phrase(
          ".*[,;-]\\s*(?:(?:are|is|do|does|did|have|has|was|were|should)(?:n't|\\s+not)?\\s+(?:we|you|they|it|there|that|this|she|he|i)(?:\\s+not)?\\s*\\?*"
              + "|(?:right|correct|yes|no|true)\\s*\\?+)");

  private static final Pattern JOKE =
      phrase("\\b(?:just|only|i'm|i\\s+am|we're|was)\\s+(?:kidding|joking)\\b|\\bkidding\\b");

  /** "Not 9 to 12, 9 to 14 is cut": what isn't done, and what is done in its place. */
  private static final Pattern NOT_FIRST =
      phrase(
          "(?:.{0,24}?[:,]\\s*)?not\\s+(?:bars?\\s+|letter\\s+)?(?:\\d\\S*|(?-i:[A-Z])\\b)(?:\\s*(?:-|to|through|and)\\s*(?:\\d\\w*|(?-i:[A-Z])\\b))?(?:\\s*,\\s*(?:but\\s+)?|\\s+but\\s+)\\S.*");

  /** "Vamp 12 to 14, not 16": where it isn't done, and not what is done there. */
  private static final Pattern NOT_THERE =
      phrase(
          ".*,\\s*(?:and\\s+|but\\s+)?not\\s+(?:at\\s+|in\\s+|from\\s+|on\\s+)?(?:bars?\\s+|letter\\s+)?(?:\\d+\\w?|(?-i:[A-Z]))");

  /** "Till she's off, then go to C": an order behind what one waits for. */
  private static final Pattern THEN_GO =
      phrase(
          ".*\\b(?:till|until|'til|when|once)\\b.*(?:,|\\b(?:and|then))\\s+(?:(?:and|then|we|you|just)\\s+)*(?:go|jump|skip|cut|hop|straight)\\s+(?:(?:straight|right|directly|on|ahead|back)\\s+)*(?:in)?to\\s+(?:the\\s+)?(?:bar\\s+|letter\\s+)?(?:\\d+\\w?|(?-i:[A-Z])|coda|end|top)\\b.*");

  /** "9 to 12 in two, then in four": nobody said from where. */
  private static final Pattern THEN_HOW =
      phrase(
          ".*(?:,|\\band\\b|,\\s*and\\b)\\s+then\\s+(?:(?:back|we're|it's|you're|again)\\s+)*(?:in\\s+(?:an?\\s+)?(?:one|two|three|four|six|[1-46])|pizz|arco|mutes?\\s+(?:on|off))\\s*(?:again|there)?[.!]*");

  private Turned() {}

  /**
   * Returns what has to be asked.
   *
   * @param said all of the message
   * @param made what it was taken for
   */
  static Optional<String> about(String said, Doubts.Made made) {
    String text = said.strip();
    if (TAG.matcher(text).matches()) {
      return Optional.of("Is this a question, or is it played like this from now on?");
    }
    if (JOKE.matcher(text).find()) {
      return Optional.of("Is this meant?");
    }
    if (made.restores() && NOT_FIRST.matcher(text).matches()) {
      return Optional.of("Which bars are meant, and what becomes of them?");
    }
    if (made.waits() && !made.several() && THEN_GO.matcher(text).matches()) {
      return Optional.of("Where does it go on? Say that by itself, as in \"after 12 go to C\".");
    }
    if (made.several() && THEN_HOW.matcher(text).matches()) {
      return Optional.of("From which bar on is it the second way?");
    }
    boolean elsewhere =
        made.several()
            && made.rests()
            && !made.silences()
            && NOT_THERE.matcher(text.replaceAll("[.!]+$", "")).matches();
    return elsewhere
        ? Optional.of("Is it only not done there, or don't you play there?")
        : Optional.empty();
  }
}
