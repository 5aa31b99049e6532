package org.barmap.plan.words.grammar;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.plan.change.term.Numerals;
import org.barmap.plan.change.term.Pass;

/**
 * What a sentence names, in whatever order: places, a time through, how often, what is waited for.
 *
 * @param places in order, each with the word before it
 * @param pass which time through; empty where none is said
 * @param often how often: "twice", "3 times"; empty where it isn't said
 * @param cue what one waits for; empty where nothing is
 * @param rest the words without all these
 */
record Slots(List<Slots.Place> places, String pass, String often, String cue, String rest) {
  private static final String MARK =
      "(?-i:[B-HJ-Z]\\b|A(?=\\s*(?:$|[,.;:+-]|(?:to|on|and|is|till|until|through|at|in)\\b)))";
  private static final String P0 =
      "(?:(?:the\\s+)?(?:bar|letter)\\s+)?(?:\\d{1,4}[A-Za-z]?(?![\\w/%])|" + MARK + ")";
  private static final String COUNT = "(?:" + Numerals.CARDINAL + ")";
  private static final String EDGE =
      "(?:(?:the\\s+)?(?:very\\s+)?(?:end|beginning|start|top|downbeat|head)\\s+of\\s+"
          + P0
          + "|(?:the\\s+)?"
          + COUNT
          + "(?:\\s+bars?)?\\s+(?:before|after)\\s+"
          + P0
          + "|(?:the\\s+)?bar\\s+(?:before|after)\\s+"
          + P0
          + "|(?:the\\s+)?"
          + Numerals.ORDINAL
          + "(?:\\s+bar)?\\s+of\\s+"
          + P0
          + "|"
          + P0
          + "\\s*(?:\\+|plus)\\s*"
          + COUNT
          + "|"
          + P0
          + "|(?:the\\s+)?(?:very\\s+)?(?:end|top|beginning)\\b)";
  private static final String BLOCK =
      "(?:the\\s+)?(?:(?:last|first|final|opening)\\s+)?"
          + COUNT
          + "\\s+(?:bars?\\s+)?(?:before|after|from|at|starting\\s+at|leading\\s+(?:in)?to)\\s+"
          + P0
          + "|(?:the\\s+)?(?:(?:last|first|final|opening)\\s+)?(?:"
          + COUNT
          + "\\s+)?bars?\\s+(?:before|after|from)\\s+"
          + P0
          + "|(?:the\\s+)?(?:last|first|final|opening)\\s+(?:"
          + COUNT
          + "(?:\\s+bars?)?|bars?)(?!\\s*(?:time|x|pass)\\b)";
  private static final Pattern PLACE =
      phrase(
          "(?:\\b(from|after|before|between|out\\s+of|at|in|on|to|into|until|till|til|up\\s+to|for|of|over|with|behind|around|through)\\s+)?(?<![\\w.=/])(?<!\\bbeat\\s)"
              + "(?:(?<block>"
              + BLOCK
              + ")|(?<stretch>"
              + EDGE
              + "(?:\\s*-\\s*|\\s+(?:right\\s+|all\\s+the\\s+way\\s+|straight\\s+)?(?:up\\s+)?(?:to|through|thru|until|till|til)\\s+)"
              + EDGE
              + ")|(?<edge>"
              + EDGE
              + "))"
              + "(?<on>\\s+on(?:wards?)?\\b(?!\\s+(?:the|cue)\\b))?");
  private static final Pattern CUE =
      phrase(
          "[,\\s]+(?:(?:and|then)\\s+)*(?:until|till|'?til|while|as\\s+long\\s+as|wait(?:ing)?\\s+for|for)\\s+(?!(?:"
              + EDGE
              + ")(?:$|[\\s,.]))(?=\\p{L}{2,})(?<cue>[^,;]+)");
  private static final Pattern PASS =
      phrase("[,\\s]*(?:\\bon\\s+)?\\b(?<pass>" + Pass.SAID + ")\\b");
  private static final Pattern OFTEN =
      phrase(
          "\\b(?<often>once|twice|thrice|"
              + COUNT
              + "\\s*(?:times|x\\b))(?:\\s+(?:in\\s+all|altogether|total))?");
  private static final int MOST = 12;

  /** A place as it was said. */
  record Place(String before, String said, boolean stretch, boolean on) {}

  /** Takes a defensive copy. */
  Slots {
    places = List.copyOf(places);
  }

  static Slots of(String words) {
    StringBuilder text = new StringBuilder(words);
    String cue = take(text, CUE, "cue");
    String pass = take(text, PASS, "pass");
    String often = take(text, OFTEN, "often");
    List<Place> places = new ArrayList<>();
    StringBuilder rest = new StringBuilder();
    Matcher m = PLACE.matcher(text);
    int from = 0;
    while (m.find() && places.size() < MOST) {
      String before = m.group(1) == null ? "" : m.group(1).toLowerCase(Locale.ROOT);
      boolean edge = m.group("edge") != null;
      String said =
          edge ? m.group("edge") : m.group("block") == null ? m.group("stretch") : m.group("block");
      places.add(
          new Place(before.replaceAll("\\s+", " "), said.strip(), !edge, m.group("on") != null));
      rest.append(text, from, m.start()).append(" | ");
      from = m.end();
    }
    rest.append(text.substring(from));
    return new Slots(places, pass, often, cue, rest.toString());
  }

  private static String take(StringBuilder text, Pattern what, String group) {
    Matcher m = what.matcher(text);
    if (!m.find()) {
      return "";
    }
    String said = m.group(group).strip();
    text.replace(m.start(), m.end(), " ");
    return said;
  }
}
