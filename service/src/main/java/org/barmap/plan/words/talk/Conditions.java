package org.barmap.plan.words.talk;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What is played again only where it is needed, and else not: "if she's late we go round 7 and 8
 * again, otherwise straight on" is a safety (common practice). Without the second half nobody said
 * what happens else, and it is asked.
 */
final class Conditions {
  private static final String WHO =
      "(?:(?:then|and|so|we|you|i|everyone|will|just|can)(?:'ll|'re)?[,\\s]+)*";
  private static final String AGAIN =
      "(?:go(?:ing)?\\s+(?:back\\s+)?(?:round|around|over)|repeat|play|do|vamp|loop|give\\s+you|take|run)\\s+(?<bars>[^,.;]+?)(?:\\s+(?:again|once\\s+more|one\\s+more\\s+time|another\\s+time|a\\s+second\\s+time))?";
  private static final String ELSE =
      "[,.;]\\s*(?:and\\s+|but\\s+)?(?:otherwise|if\\s+not|or\\s+else|else|if\\s+(?:she|he|they|it)(?:'s|\\s+is|'re|\\s+are)\\s+(?:there|ready|on|on\\s+time|in\\s+(?:place|position)))[,]?\\s+"
          + "(?:(?:then|we|you|it's|just|simply|will)(?:'ll)?\\s+)*(?:keep\\s+(?:on\\s+)?going|go(?:\\s+straight|\\s+right)?\\s+on|carry\\s+(?:straight\\s+)?on|straight\\s+(?:on|through|ahead)|on|play\\s+on|move\\s+on|continue)[.!]?";
  private static final Pattern FIRST =
      phrase(
          "(?<front>(?:no\\.\\s+\\w+:\\s*)?)(?<watch>(?:(?:just\\s+)?watch(?:\\s+me)?\\s+(?:at|in)\\s+\\w+[:,.;]\\s*)?)(?:if|in\\s+case|when)\\s+(?<when>.+?),?\\s+"
              + WHO
              + AGAIN
              + ELSE);
  private static final Pattern LAST =
      phrase(
          "(?<front>(?:no\\.\\s+\\w+:\\s*)?)(?<watch>)"
              + WHO
              + AGAIN
              + ",?\\s+(?:if|in\\s+case|when)\\s+(?<when>[^,.;]+?)"
              + ELSE);

  private Conditions() {}

  /** Returns the order that such a sentence comes to; itself where it is none. */
  static String over(String said) {
    for (Pattern form : new Pattern[] {FIRST, LAST}) {
      Matcher m = form.matcher(said);
      if (m.matches()) {
        String watch =
            m.group("watch").isBlank() ? "" : m.group("watch").replaceFirst("[:,.;]\\s*$", ". ");
        return m.group("front")
            + watch
            + (watch.isEmpty() ? "safety " : "Safety ")
            + m.group("bars");
      }
    }
    return said;
  }
}
