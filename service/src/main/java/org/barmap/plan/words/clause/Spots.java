package org.barmap.plan.words.clause;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.plan.change.term.Numerals;
import org.barmap.plan.words.grammar.Bars;

/** How bars are named: one bar, a beat of one, or so many said as one. */
final class Spots {
  private static final String BAR =
      "(?:(?:the\\s+)?(?:bars?|measures?|mm?\\.?|bb?\\.|letters?|rehearsal(?:\\s+(?:letter|mark))?|marks?|figure|section)\\s*(?:numbers?\\s+|nos?\\.\\s*)?)";
  private static final String NOT_COUNTED =
      "(?![\\w/%]|\\s*(?:times|x|bars?|measures?|beats?|bpm|sharps?|flats?|counts?|more|extra|new|empty|(?:half|whole|semi)[\\s-]?(?:steps?|tones?)|steps?|tones?|semitones?|seconds?|secs?|minutes?)\\b)";
  private static final String P0 =
      "(?:"
          + BAR
          + "?\\d{1,4}[A-Za-z]?"
          + NOT_COUNTED
          + "|"
          + BAR
          + "(?:[A-Za-z]{1,2}\\d?)(?![\\w'])|(?<=[\\p{L}\\d,]\\s|-)(?-i:A)(?![\\w'])|(?-i:[B-HJ-Z]{1,2}|AA|A(?=\\s*(?:$|[,.;:+-]|(?:to|on|onwards?|and|is|till|until|through|at|in|we|you|or|for|with|as|for|twice|plus|goes|are|again|now|then|out)\\b)))(?![\\w']))";
  private static final String COUNT = "(?:" + Numerals.CARDINAL + ")";
  private static final String ANCHOR =
      "(?:" + P0 + "|(?:the\\s+)?(?:very\\s+)?(?:end|top|start|beginning|coda|segno)\\b)";
  private static final String BARS = "(?:bars?|measures?)";

  /** "The four bars leading into F" are those before F. */
  private static final Pattern LEADING =
      phrase(
          "(?:the\\s+)?(?:last\\s+)?("
              + COUNT
              + ")\\s+(?:"
              + BARS
              + "\\s+)?(?:leading|going|running|heading|coming|that\\s+lead|that\\s+go)\\s+(?:up\\s+|in\\s*)?(?:in)?to\\s+("
              + P0
              + ")");

  private static final Pattern LEADING_ONE =
      phrase(
          "(?:the\\s+)?"
              + BARS
              + "\\s+(?:leading|going|running|right|just|immediately|directly)\\s+(?:(?:up\\s+|in\\s*)?(?:in)?to|before)\\s+("
              + P0
              + ")");
  private static final Pattern BUT_ONE =
      phrase(
          "(?:the\\s+)?(?:penultimate|second[\\s-]to[\\s-]last|next[\\s-]to[\\s-]last|second[\\s-]last)\\s+bar\\b|(?:the\\s+)?last\\s+bar\\s+but\\s+one\\b");
  private static final Pattern PICKUP =
      phrase(
          "(?:the\\s+)?(?:pick-?\\s?ups?|upbeats?)(?:\\s+bar)?\\s+(?:in)?(?:to|of|before)\\s+"
              + P0);
  private static final Pattern BEAT =
      phrase(
          P0
              + ",?\\s+(?:on\\s+)?beat\\s+"
              + COUNT
              + "\\b|(?:the\\s+)?beat\\s+"
              + COUNT
              + "\\s+(?:of|in)\\s+"
              + P0
              + "|(?:the\\s+)?"
              + Numerals.ORDINAL
              + "\\s+beat\\s+(?:of|in)\\s+"
              + P0);
  private static final Pattern EDGE =
      phrase(
          "(?:the\\s+)?(?:very\\s+)?(?:end|beginning|start|top|downbeat|first\\s+beat|last\\s+beat|head|barline)\\s+of\\s+"
              + P0);
  private static final Pattern BLOCK =
      phrase(
          "(?:the\\s+)?(?:(?:last|first|final|opening|next)\\s+)?(?:"
              + COUNT
              + ")\\s+(?:"
              + BARS
              + "\\s+)?(?:right\\s+|just\\s+|immediately\\s+)?(?:before|after|from|at|starting\\s+at|starting\\s+from|of)\\s+"
              + ANCHOR
              + "|(?:the\\s+)?"
              + BARS
              + "\\s+(?:before|after)\\s+"
              + ANCHOR);

  /** "The last two beats of bar 12". */
  private static final Pattern BEATS =
      phrase("(?:the\\s+)?(?:first|last)\\s+" + COUNT + "\\s+beats?\\s+(?:of|in)\\s+" + P0);

  private static final Pattern ENDS =
      phrase(
          "(?:the\\s+)?(?:very\\s+)?(?:last|first|final|opening|closing)\\s+(?:(?!one\\b(?!\\s+bar))"
              + COUNT
              + "(?:\\s+"
              + BARS
              + ")?|"
              + BARS
              + ")(?!\\s*(?:-|time|x\\b|pass|ending))(?:\\s+(?:of|in)\\s+"
              + P0
              + ")?\\b");

  /** "A's first four" are the first four of A. */
  private static final Pattern OWNED =
      phrase(
          "(?:letter\\s+)?((?-i:[A-Z]{1,2}))'s\\s+(first|last|opening|final)\\s+("
              + COUNT
              + ")(?:\\s+"
              + BARS
              + ")?\\b(?!\\s+beats?\\b)");

  private static final Pattern NTH =
      phrase("(?:the\\s+)?" + Numerals.ORDINAL + "\\s+" + BARS + "\\s+of\\s+" + P0);
  private static final Pattern HALF =
      phrase("(?:the\\s+)?(?:first|second|last|1st|2nd)\\s+half\\s+of\\s+" + P0);
  private static final Pattern PLUS =
      phrase(P0 + "\\s*(?:\\+|\\bplus\\b|\\bminus\\b)\\s*" + COUNT + "\\b");
  private static final Pattern SECTION =
      phrase(
          "(?:all\\s+of|the\\s+whole\\s+of|the\\s+rest\\s+of)\\s+("
              + P0
              + ")|(?:the\\s+)?(?:whole\\s+|entire\\s+)?((?-i:[A-Z]))\\s+section");
  private static final Pattern ONE = phrase(P0);
  private static final Pattern SIGN =
      phrase(
          "(?:the\\s+)?(?:very\\s+)?(?:end|top|beginning|start|outset)\\b(?!\\s+of\\b)|(?:the\\s+)?(?:very\\s+)?(?:beginning|start|top|end)\\s+of\\s+(?:the\\s+)?(?:number|song|piece|tune|it)\\b|(?:the\\s+)?(?:coda|segno|sign)\\b");

  private static final Pattern DOES =
      phrase(
          "\\b(?:we|you|they|i|it|us|just|only|then|now|all|everyone|everybody|will|and|also|always|so)\\s+$");

  private Spots() {}

  /** Returns the longest name of bars of the number that begins at a place of a text. */
  static Optional<Token> at(String text, int from, Bars bars) {
    Optional<Token> best = Optional.empty();
    for (Pattern pattern :
        new Pattern[] {
          LEADING,
          LEADING_ONE,
          BUT_ONE,
          PICKUP,
          BEAT,
          BEATS,
          EDGE,
          BLOCK,
          ENDS,
          NTH,
          HALF,
          OWNED,
          PLUS,
          SECTION,
          ONE,
          SIGN
        }) {
      Matcher m = pattern.matcher(text).region(from, text.length()).useTransparentBounds(true);
      if (pattern == SIGN && DOES.matcher(text.substring(0, from)).find()) {
        continue; // "we end on 63"
      }
      if (m.lookingAt() && best.filter(b -> b.text().length() >= m.group().length()).isEmpty()) {
        String said = said(pattern, m);
        if (pattern == PICKUP || bars.named(pattern == EDGE ? of(said) : said)) {
          best = Optional.of(new Token(Token.Kind.PLACE, said, m.group()));
        }
      }
    }
    return best;
  }

  private static String of(String edge) {
    return edge.replaceFirst("(?i)^.*?\\bof\\s+", "");
  }

  private static String said(Pattern pattern, Matcher m) {
    if (pattern == LEADING) {
      return "the " + m.group(1) + " bars before " + m.group(2);
    }
    if (pattern == LEADING_ONE) {
      return "1 before " + m.group(1);
    }
    if (pattern == OWNED) {
      String edge = m.group(2).toLowerCase(java.util.Locale.ROOT);
      return "the "
          + (edge.matches("last|final") ? "last " : "first ")
          + m.group(3)
          + " bars of "
          + m.group(1);
    }
    if (pattern == BUT_ONE) {
      return "1 before end";
    }
    if (pattern == SECTION) {
      return "letter " + bare(m.group(1) == null ? m.group(2) : m.group(1));
    }
    String said = m.group().replaceFirst("(?i)^(?:the\\s+)?very\\s+", "the ");
    if (pattern == SIGN) {
      return said.replaceFirst("(?i)\\s+of\\s+.*", "").replaceFirst("(?i)outset", "start");
    }
    if (pattern == ONE) {
      return one(said);
    }
    if (pattern == ENDS) {
      return said.replaceFirst("(?i)closing", "last").replaceFirst("(?i)opening", "first");
    }
    return pattern == BLOCK
        ? said.replaceFirst("(?i)starting\\s+(?:at|from)|(?<=bars)\\s+of|(?<=\\d)\\s+of", " from")
            .replaceFirst("(?i)\\b(?:right|just|immediately)\\s+", "")
            .replaceAll("\\s+", " ")
        : said;
  }

  /** A letter is a section where it is called so, a figure a bar. */
  private static String one(String said) {
    String bar = bare(said);
    boolean letter = said.matches("(?i)(?:the\\s+)?(?:letters?|section)\\s.*");
    return bar.matches("[A-Z]{1,2}\\d?")
        ? (letter
            ? "letter " + bar
            : said.matches("(?i)(?:the\\s+)?(?:bar|measure)\\s.*") ? "bar " + bar : bar)
        : bar;
  }

  private static String bare(String said) {
    String bar = said.strip().replaceFirst("(?i)^" + BAR + "(?=\\w)", "");
    return bar.matches("[a-zA-Z]{1,2}") ? bar.toUpperCase(java.util.Locale.ROOT) : bar;
  }
}
