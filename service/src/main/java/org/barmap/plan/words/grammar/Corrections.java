package org.barmap.plan.words.grammar;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** What is corrected in the same breath: "cut 13 to 19, no, 13 to 20", "no, 46 not 45". */
public final class Corrections {
  private static final String OOPS =
      "(?:(?:no|wait|actually|rather|that\\s+is)(?=\\s*[,.!-]|\\s+\\d+,?\\s+not\\b|\\s+(?:sorry|wait|hang|hold|actually|make|i)\\b)"
          + "|(?:sorry|oops|i\\s+meant?|make\\s+(?:that|it)(?=\\s+(?:bars?\\s+)?[\\dA-Z])|make\\s+that|correction|scratch\\s+that|hang\\s+on|hold\\s+on(?=\\s*,)|i\\s+tell\\s+a\\s+lie|tell\\s+a\\s+lie|my\\s+mistake|i\\s+beg\\s+your\\s+pardon|beg\\s+your\\s+pardon|let\\s+me\\s+start\\s+again|what\\s+am\\s+i\\s+saying|i\\s+mean\\s+to\\s+say|wait\\s+a\\s+(?:minute|moment|second|sec)|one\\s+moment|no,?\\s+it's)\\b)";
  private static final Pattern SAID =
      phrase(
          "(?<first>.+?)(?:\\s*,\\s*|\\s+-+\\s+|\\s*\\.\\.\\.\\s*|\\.\\s+)"
              + "(?:(?:oh|er|um|ah|uh)[,\\s]+)*"
              + OOPS
              + "(?:[,.:!\\s-]+"
              + OOPS
              + ")*[,.:!\\s-]+(?<then>.+)");
  private static final String BAR = "((?:bar\\s+)?(?:\\d{1,4}[A-Za-z]?|(?-i:[A-Z]{1,2})))";
  private static final Pattern NOT_THAT = phrase("not\\s+" + BAR + "[,;]?\\s+(?:but\\s+)?" + BAR);
  private static final Pattern THIS_NOT = phrase(BAR + "[,;]?\\s+(?:and\\s+)?not\\s+" + BAR);
  private static final Pattern ONE = phrase(BAR);
  private static final Pattern STRETCH = phrase(BAR + "\\s*(?:-|to|through|thru|and)\\s*" + BAR);
  private static final Pattern WITH_TAIL = phrase("([^,]+),\\s+(\\p{L}.*)");
  private static final Pattern ANY_STRETCH =
      phrase("\\b" + BAR + "\\s*(?:-|\\bto\\b|\\bthrough\\b|\\bthru\\b)\\s*" + BAR + "\\b");
  private static final Pattern ANY = phrase("\\b\\d{1,4}[A-Za-z]?\\b");
  private static final Pattern VERB =
      phrase("(?:cut|vamp|safety|play|hold|insert|add|tacet|repeat|go|start|stop)\\b.*");

  private Corrections() {}

  /** Whether something is corrected, as far as the words show. */
  public static boolean corrected(String sentence) {
    return SAID.matcher(sentence).matches();
  }

  /** Returns the sentence as it was meant; as it is where nothing is corrected. */
  public static String over(String sentence) {
    Matcher said = SAID.matcher(sentence);
    if (!said.matches()) {
      return sentence;
    }
    String first = said.group("first");
    String then = said.group("then").strip().replaceFirst("[.!]+$", "");
    Matcher not = NOT_THAT.matcher(then);
    Matcher but = THIS_NOT.matcher(then);
    if (not.matches()) {
      return replaced(first, not.group(1), not.group(2), sentence);
    }
    if (but.matches()) {
      return replaced(first, but.group(2), but.group(1), sentence);
    }
    Matcher tail = WITH_TAIL.matcher(then);
    if (tail.matches()
        && (STRETCH.matcher(tail.group(1)).matches() || ONE.matcher(tail.group(1)).matches())) {
      return over(sentence.substring(0, said.start("then")) + tail.group(1)) + ", " + tail.group(2);
    }
    if (STRETCH.matcher(then).matches()) {
      return last(first, ANY_STRETCH, then, sentence);
    }
    if (ONE.matcher(then).matches()) {
      return last(first, ANY, then.replaceFirst("(?i)^bar\\s+", ""), sentence);
    }
    String number =
        first.matches("(?i)(?:no\\.?|number|#)\\s*\\w+:.*") ? first.replaceFirst(":.*", ": ") : "";
    return VERB.matcher(then).matches() ? number + then : sentence;
  }

  private static String replaced(String in, String old, String put, String whole) {
    String bare = old.replaceFirst("(?i)^bar\\s+", "");
    Matcher m = Pattern.compile("(?<![\\w.])" + Pattern.quote(bare) + "(?!\\w)").matcher(in);
    int at = -1;
    while (m.find()) {
      at = m.start();
    }
    return at < 0
        ? whole
        : in.substring(0, at)
            + put.replaceFirst("(?i)^bar\\s+", "")
            + in.substring(at + bare.length());
  }

  private static String last(String in, Pattern what, String put, String whole) {
    Matcher m = what.matcher(in);
    int start = -1;
    int end = -1;
    while (m.find()) {
      start = m.start();
      end = m.end();
    }
    return start < 0 ? whole : in.substring(0, start) + put + in.substring(end);
  }
}
