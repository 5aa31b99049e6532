package org.barmap.plan.words.grammar;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.List;
import java.util.regex.MatchResult;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Brings words to one form: abbreviations, fillers, short forms, and one verb for each thing done.
 */
public final class Tidy {

  private static final String GREETING =
      "^(?:hi|hello|hey|dear|morning|good\\s+(?:morning|evening|afternoon)|fyi|heads\\s+up|quick\\s+(?:note|one)|n\\.?b\\.?)\\b"
          + "(?:\\s+(?:all|everyone|everybody|guys|folks|team|both|there|band|gang|pit))*\\s*[,:!.-]*\\s+(?=\\S)";
  private static final String THANKS =
      "[,.!;-]?\\s*\\b(?:thx|thanks|thank\\s+you|ta|cheers|tia|ok(?:ay)?\\?)(?:\\s+(?:so\\s+much|a\\s+lot|all|everyone|everybody|guys|folks))*\\s*[.!x]*$";
  private static final List<Swap> AROUND =
      List.of(
          swap(GREETING, ""), swap(THANKS, ""), swap("\\b(?:pls|plz)\\b\\.?[,\\s]*", "please "));

  private static final String MARK = "(?=(?-i:[A-Z]{1,2})\\d?\\b)";

  private static final List<Swap> LETTERS =
      List.of(
          swap(
              "\\b(?:bars?|measures?|meas\\.?|msrs?\\.?|mm\\.?|bb\\.?|(?-i:[bm])\\.)\\s*(?:nos?\\b\\.?|numbers?|#)?\\s*(?=\\d)",
              "bar "),
          swap(
              "\\b(?:r\\.?\\s?m\\.|reh(?:earsal)?\\b\\.?(?:\\s*(?:marks?|letters?|nos?\\.?|fig(?:ure)?s?\\.?))?|letters?|marks?|fig(?:ure)?s?\\b\\.?)\\s+"
                  + MARK,
              "letter "),
          swap("\\bletter\\s+(\\S+)(\\s*-\\s*|\\s+\\S+\\s+)letter\\s+(?=\\S)", "$1$2"),
          swap(
              "\\b(?:take|taking|leave|leaving|cut|cutting|pull|pulling)\\s+(one|two|three|four|five|six|seven|eight|\\d{1,2})(\\s+bars?)?\\s+out\\s+(before|after)\\b",
              "cut $1$2 $3"),
          swap("\\bw/o\\b", "without"),
          swap("\\bw/\\s?", "with "),
          swap("\\s+&\\s+", " and "),
          swap("\\b(?:isn't|ain't|isnt)\\b", "is not"),
          swap("\\baren't\\b", "are not"),
          swap("\\b(?:don't|dont|doesn't|won't|didn't|never)\\b", "do not"),
          swap("\\bno\\s+longer\\b", "not"),
          swap("\\b([1-9])\\s?x\\s+only\\b|\\bonly\\s+(?:the\\s+)?([1-9])x\\b", "$1$2. time only"),
          swap("\\btacet\\s+([1-9])x\\b|\\b([1-9])x\\s+tacet\\b", "tacet $1$2. time"),
          swap("\\b1\\. time\\b", "1st time"),
          swap("\\b2\\. time\\b", "2nd time"),
          swap("\\b3\\. time\\b", "3rd time"),
          swap("\\b([4-9])\\. time\\b", "$1th time"));

  private static final List<Swap> FILLERS =
      List.of(
          swap(
              "(?<=\\w)(?<!day)(?<!night)(?<!week)(?<!\\bs?he)(?<!\\bit)'s\\s+(?=(?:up|down|out|in|cut|back|gone|off|missing|not|now|at|an?)\\b)",
              " is "),
          swap(
              "\\b(?:please|kindly|actually|basically|simply|now|currently|definitely|okay|ok|also|just(?!\\s+(?:before|after|play|the)))\\b[,\\s]*",
              ""),
          swap(
              ",?\\s+(?:any\\s?more|after\\s+all|at\\s+all|from\\s+now\\s+on|going\\s+forward|as\\s+(?:discussed|agreed)|for\\s+(?:time|length|pace))[.!]*$",
              ""),
          swap("^(?:so|and|then|but|well|right)[,\\s]+(?=\\S)", ""),
          swap(
              "^(?:can|could|would|will)\\s+(?:we|you|everyone)\\s+(?:all\\s+)?|^(?:make\\s+sure\\s+(?:to|you|we)|remember\\s+to|be\\s+sure\\s+to)\\s+",
              ""),
          swap(
              "^(?:we|you|i|they|it|that|there)(?:'(?:re|ll|d|m|ve|s)|\\s+(?:are|is|will|would|can|should|have|want|need(?=\\s+(?:you\\s+)?to)))?"
                  + "(?:\\s+(?:be|all|going\\s+to|gonna|(?:you\\s+)?to|like\\s+to))*\\s+(?=\\S)",
              ""),
          swap("^let(?:'s|\\s+us|s)\\s+", ""));

  private static final List<Swap> VERBS =
      List.of(
          swap(
              "\\b(?:cutting|omit(?:s|ted|ting)?|skip(?:s|ped|ping)?|drop(?:s|ped|ping)?|los(?:e|es|ing|t)|delet(?:e|es|ed|ing)"
                  + "|remov(?:e|es|ed|ing)|kill(?:s|ed|ing)?|ax(?:e|ed|ing)|scrap(?:ped)?|ditch(?:ed)?|(?:leav|tak)(?:e|es|ing)\\s+out|left\\s+out|taken\\s+out)\\b",
              "cut"),
          swap("\\b(?:leav|tak)(?:e|ing)\\s+(.+?)\\s+out$", "cut $1"),
          swap("\\bvamp(?:s|ing|ed)\\b|\\bloop(?:s|ing)?\\b|\\bcycl(?:e|es|ing)\\b", "vamp"),
          swap(
              "\\b(?:jump|hop|leap|skip|move|continue|proceed|carry)(?:s|ing)?\\s+(?:on\\s+|straight\\s+|right\\s+|directly\\s+|ahead\\s+)*(?=(?:in)?to\\b)",
              "go "),
          swap("\\b(?:hold|paus|wait|sitt?|park|rest)(?:e?s|ing)\\b", "hold"),
          swap(
              "\\b(?:silent|lay(?:s|ing)?\\s+out|sit(?:s|ting)?\\s+out|does\\s+not\\s+play|do\\s+not\\s+play)\\b",
              "tacet"));

  private static final Pattern TILL =
      phrase(
          "(?<=\\s)(?:until|till|'?til|while|as\\s+long\\s+as|if|in\\s+case|because|when|once|waiting\\s+for|(?:for|under)\\s+(?:the|her|his|him|them|an?)\\b)\\s");

  private static final Pattern AT_END = phrase("\\bat\\s+(?:(?:the\\s+)?very\\s+)?end\\s+of\\s+");

  private Tidy() {}

  /** One way to write it, and the one kept. */
  private record Swap(Pattern from, String to) {
    String over(String words) {
      return from.matcher(words).replaceAll(m -> put(m, to));
    }

    private static String put(MatchResult m, String to) {
      StringBuilder text = new StringBuilder();
      for (int i = 0; i < to.length(); i++) {
        if (to.charAt(i) == '$') {
          i++;
          String group = m.group(to.charAt(i) - '0');
          text.append(group == null ? "" : group);
        } else {
          text.append(to.charAt(i));
        }
      }
      return Matcher.quoteReplacement(text.toString());
    }
  }

  private static Swap swap(String from, String to) {
    return new Swap(phrase(from), to);
  }

  /** Takes off what stands round a message: a greeting, and thanks. */
  public static String message(String line) {
    return AT_END.matcher(all(AROUND, line)).replaceAll("at the end of ");
  }

  /** Writes out what is abbreviated; nothing else changes. */
  public static String letters(String words) {
    return all(LETTERS, words);
  }

  /**
   * Brings a sentence to the words that the rules know; what one waits for stays as it was said.
   */
  static String words(String said) {
    return tidied(said, true);
  }

  /** The same without one verb for each thing done. */
  static String plain(String said) {
    return tidied(said, false);
  }

  private static String tidied(String said, boolean verbs) {
    String text = all(LETTERS, all(AROUND, said));
    Matcher till = TILL.matcher(text);
    int end = till.find() ? till.start() : text.length();
    String head = all(FILLERS, text.substring(0, end));
    String bare = all(FILLERS, verbs ? all(VERBS, head) : head);
    return (bare + " " + text.substring(end).strip()).strip().replaceFirst("[.!,]+$", "");
  }

  private static String all(List<Swap> swaps, String words) {
    String text = words;
    for (Swap swap : swaps) {
      text = swap.over(text);
    }
    return text.replaceAll(" {2,}", " ").strip();
  }
}
