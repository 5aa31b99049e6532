package org.barmap.plan.words.clause;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.plan.words.grammar.Bars;
import org.barmap.plan.words.grammar.Tidy;

/** Takes a sentence apart into what its words say. */
final class Lexer {
  private static final String WHO =
      "(?:the|she|he|they|it|you|we|i|her|his|him|them|their|my|a|an|everyone|everybody|applause|dialogue|(?-i:[A-Z])[a-z]+)";
  private static final String REACH =
      "(?:(?:we|you)\\s+(?:get\\s+to|get|reach|hit|come\\s+to|arrive\\s+at|are\\s+at)\\s+)?(?:the\\s+)?";
  private static final String PLACE =
      "(?:(?:bar|letter|downbeat|pick-?up|beat)\\b.*|\\d.*|(?-i:[A-Z])\\b(?!'|(?<=I)\\s+[a-z]).*|(?:very\\s+)?(?:end|top|coda|last\\s+\\w+|repeat)\\b(?!\\s+of\\s+(?:the|her|his|a)\\b).*)";
  private static final String STOPS =
      "(?=\\s*(?:[,;]|[.!?](?:\\s|$)|$)|\\s+(?:and\\s+)?then\\b|\\s+and\\s+(?:cut|vamp|hold|play|skip|tacet|repeat|insert|add|go|jump)\\b|\\s+(?:(?:we|you|just|keep)\\s+)*(?:vamp|loop|tacet|cut)\\b)";
  private static final Pattern CUE =
      phrase(
          "(?:(?:until|till|'til|til|waiting\\s+for|wait\\s+for|up\\s+until)\\s+(?!(?:further\\s+)?notice\\b|(?:i|we)\\s+say\\b|opening\\b|"
              + REACH
              + PLACE
              + ")|(?:while|as\\s+long\\s+as|so\\s+long\\s+as|for\\s+as\\s+long\\s+as|when|once|as\\s+soon\\s+as|for|under|underneath)\\s+(?!"
              + REACH
              + PLACE
              + ")(?="
              + WHO
              + "\\b)(?!(?:you|us|me)(?=\\s*(?:[,.;!]|$)|\\s+(?:in|from|at|on|until)\\b))(?!(?:you|we)\\s+(?:come|go|get|jump)\\s+back\\b)(?!(?:the\\s+)?(?:first|1st|second|2nd|third|last|final|rest|whole|entire|bass)\\b|(?:a|an|the)\\s+(?:\\w+\\s+)?(?:bars?|beats?|time\\b|number|song|good|moment|repeat|coda)\\b))"
              + "(.*?[\\p{L}\\d.])"
              + STOPS);
  private static final Pattern REASON =
      phrase(
          "(?:(?:the\\s+)?\\w+'s\\s+(?:request|idea|call|orders?|decision|wish|wishes|note|suggestion|choice)\\b|because|since|'cause|cos|so\\s+that|in\\s+case|in\\s+order\\s+to|to\\s+(?:save|give|help|let|tighten|shorten|speed|cover|allow|fit|match|buy|accommodate|get\\s+(?:her|him|them|us|through))\\b|as\\s+(?:the|she|he|they|it|we)\\b|which\\s+(?:is|will|gives|means|should)\\b|for\\s+(?:time|length|pace|pacing|timing|safety|now|the\\s+(?:time\\s+being|sake|moment|dance|tempo)))\\b[^,;\\d]*");
  private static final Pattern IF = phrase("(?:only\\s+)?(?:if|unless)\\b[^,;.\\d]*");
  private static final Pattern ON_BEHIND =
      phrase(
          "(?:on|onwards?|and\\s+on)(?=\\s*(?:$|[,.;:!]|(?:is|are|we|you|it|to\\s+the\\s+end|down|up|in\\s|a\\s|play|tacet|and)\\b))");

  private static final Pattern TO_END_OF =
      phrase(
          "((?:right\\s+|up\\s+|all\\s+the\\s+way\\s+)?to|until|till)\\s+the\\s+(?:very\\s+)?end\\s+of\\s+(?:letter\\s+|bar\\s+|the\\s+\\w+\\s+bar\\s+)?(?:(?-i:[A-Z]{1,2})|\\d+)\\b");

  /** "Back in four at C": so many beats are shown again; nobody comes in again. */
  private static final Pattern BACK_IN_BEATS =
      phrase(
          "(?:(?:come|go|get|be)\\s+)?back(?=\\s+in\\s+(?:an?\\s+)?(?:slow\\s+|fast\\s+)?(?:one|two|three|four|six|[1-46])\\s+(?:at|from)\\b)");

  /** A number of the show that is left in a sentence is no bar of the one spoken of. */
  private static final Pattern OTHER_NUMBER =
      phrase("(?:number|no\\.|nr\\.?|#)\\s*\\d{1,4}[A-Za-z]{0,2}\\b");

  private Lexer() {}

  /** Returns what a sentence is made of; what one waits for stays as it was said. */
  static List<Token> of(String words, Bars bars) {
    List<Token> tokens = new ArrayList<>();
    String text = landmarks(words, bars);
    Matcher cue = phrase("(?<![\\w'-])" + CUE.pattern()).matcher(text);
    int from = 0;
    while (cue.find(from)) {
      lex(expanded(text.substring(from, cue.start())), bars, tokens);
      String word = cue.group().replaceFirst("(?s)\\s.*", "");
      tokens.add(new Token(Token.Kind.CUE, cue.group(1).strip(), word));
      from = cue.end();
    }
    lex(expanded(text.substring(from)), bars, tokens);
    return tokens;
  }

  private static final Pattern LANDMARK =
      phrase(
          "\\b(before|after|following|until|till|up\\s+to|out\\s+of|into|to|from|at)\\s+(?:the\\s+)?(double\\s+bar(?:line)?|key[\\s-]+change|change\\s+of\\s+key|(?:meter|time(?:\\s+signature)?)[\\s-]+change|change\\s+of\\s+(?:meter|time)|vamp|safety|repeat)\\b(?!\\s+(?:sign|bars?|at|in|on|\\d|(?-i:[A-Z])\\b))");

  /** "The bar before the double bar" is the bar before the one that begins there. */
  private static String landmarks(String words, Bars bars) {
    Matcher m = LANDMARK.matcher(words);
    return m.replaceAll(
        found -> {
          boolean behind =
              found
                  .group(1)
                  .toLowerCase(java.util.Locale.ROOT)
                  .matches("after|following|out\\s+of");
          String what = found.group(2).toLowerCase(java.util.Locale.ROOT);
          String printed =
              what.startsWith("double")
                  ? "double bar"
                  : what.contains("key")
                      ? "key"
                      : what.matches("vamp|safety|repeat") ? what : "meter";
          boolean small =
              what.matches("vamp|safety|repeat") && found.group(1).matches("(?i)from|at|to");
          Optional<String> bar = small ? Optional.empty() : bars.landmark(printed, behind);
          return Matcher.quoteReplacement(
              bar.map(
                      b ->
                          (!behind && found.group(1).equalsIgnoreCase("at")
                                  ? "when we get to"
                                  : found.group(1))
                              + " bar "
                              + b)
                  .orElse(found.group()));
        });
  }

  private static void lex(String text, Bars bars, List<Token> tokens) {
    int at = 0;
    while (at < text.length()) {
      char c = text.charAt(at);
      if (c == ' ' || c == '"' || c == '\'' || c == '(' || c == ')') {
        at++;
      } else if (c == '-' || (c == '.' && text.startsWith("..", at))) {
        tokens.add(dash(tokens, text, at));
        at += c == '.' ? 2 : 1;
      } else if (",;:.!?".indexOf(c) >= 0) {
        tokens.add(new Token(Token.Kind.COMMA, ",", Character.toString(c)));
        at++;
      } else {
        Token next = next(text, at, bars, tokens);
        tokens.add(next);
        at += Math.max(1, next.text().length());
      }
    }
  }

  /** Between two bars it is "to"; else a break. */
  private static Token dash(List<Token> tokens, String text, int at) {
    boolean behind = !tokens.isEmpty() && tokens.get(tokens.size() - 1).is(Token.Kind.PLACE);
    boolean bar =
        text.substring(at)
            .matches("[-.]+\\s*(?:\\d|(?:bar|letter)\\s|[A-Z]\\b|end\\b|the end\\b).*");
    return behind && bar
        ? new Token(Token.Kind.PREP, "-", "-")
        : new Token(Token.Kind.COMMA, ",", "-");
  }

  private static Token next(String text, int at, Bars bars, List<Token> before) {
    Matcher reason = REASON.matcher(text).region(at, text.length()).useTransparentBounds(true);
    if (reason.lookingAt()) {
      return new Token(Token.Kind.REASON, "", reason.group());
    }
    Matcher when = IF.matcher(text).region(at, text.length());
    if (when.lookingAt()) {
      return new Token(Token.Kind.IF, "", when.group());
    }
    Matcher named = OTHER_NUMBER.matcher(text).region(at, text.length());
    if (named.lookingAt()) {
      return new Token(Token.Kind.WORD, named.group(), named.group());
    }
    Matcher beats =
        BACK_IN_BEATS.matcher(text).region(at, text.length()).useTransparentBounds(true);
    if (beats.lookingAt()) {
      return new Token(Token.Kind.FILL, "", beats.group());
    }
    boolean behind = !before.isEmpty() && before.get(before.size() - 1).is(Token.Kind.PLACE);
    Matcher on = ON_BEHIND.matcher(text).region(at, text.length());
    if (behind && on.lookingAt()) {
      return new Token(Token.Kind.ON, "", on.group());
    }
    Optional<Token> best = Lexicon.at(text, at).map(t -> endOf(t, text, at));
    for (Optional<Token> other : List.of(Spots.at(text, at, bars), Forms.at(text, at))) {
      if (other.isPresent() && best.filter(b -> longer(b, other.get())).isEmpty()) {
        best = other;
      }
    }
    return best.orElseGet(() -> word(text, at));
  }

  /** "Up to the end of A" ends with A, and not with the number. */
  private static Token endOf(Token on, String text, int at) {
    Matcher m = TO_END_OF.matcher(text).region(at, text.length());
    return on.is(Token.Kind.ON) && m.lookingAt()
        ? new Token(
            Token.Kind.PREP, m.group(1).matches("(?i)to|right to") ? "to" : "until", m.group(1))
        : on;
  }

  private static boolean longer(Token one, Token other) {
    return one.text().length() > other.text().length();
  }

  /** A figure that is no bar of the number can only be a tempo. */
  private static Token word(String text, int at) {
    Matcher m = phrase("[\\w'\\u00C0-\\u024F/.=+&%-]*[\\w'\\u00C0-\\u024F%]|\\S").matcher(text);
    String word = m.find(at) ? m.group() : text.substring(at, at + 1);
    boolean figure = word.matches("\\d{2,3}");
    return new Token(figure ? Token.Kind.FIGURE : Token.Kind.WORD, word, word);
  }

  /** Writes short forms out. */
  static String expanded(String words) {
    return Tidy.letters(words)
        .replaceAll("(?i)\\bcan't\\b", "can not")
        .replaceAll("(?i)\\bwon't\\b", "will not")
        .replaceAll(
            "(?i)\\b(do|does|did|is|are|was|were|would|should|could|has|have|had|need|must)n't\\b",
            "$1 not")
        .replaceAll("(?i)\\b(\\w+)'re\\b", "$1 are")
        .replaceAll("(?i)\\b(\\w+)'ll\\b", "$1 will")
        .replaceAll("(?i)\\b(\\w+)'ve\\b", "$1 have")
        .replaceAll("(?i)\\b(i|you|we|he|she|they|it)'d\\b", "$1 would")
        .replaceAll("(?i)\\bi'm\\b", "i am")
        .replaceAll("(?i)\\blet's\\b", "let us")
        .replaceAll(
            "(?i)\\b(it|that|there|he|she|what|here|who|where|which|everyone|everybody|everything)'s\\b",
            "$1 is")
        .replaceAll(
            "(?i)(?<=\\w)'s\\s+(?=(?:up|down|out|in|cut|back|gone|off|missing|not|now|at|a|an|going|tacet|only|just)\\b)",
            " is ")
        .replaceAll(
            "(?i)\\b(do|does|is|are|will|would|can|should|did) (you|we|they|it) not\\b",
            "$2 $1 not")
        .replaceAll(" {2,}", " ");
  }
}
