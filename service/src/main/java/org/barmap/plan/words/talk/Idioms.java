package org.barmap.plan.words.talk;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.List;
import java.util.Locale;
import java.util.function.Function;
import java.util.regex.MatchResult;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.plan.change.term.Numerals;

/**
 * Turns of phrase that mean one order and no other, whatever their words mean by themselves: "out
 * after 40, in at 45" is "after 40 go to 45". Figures are written as such already.
 */
public final class Idioms {
  private static final String PLACE =
      "((?:(?:bar|letter|mark)\\s+)?(?:\\d{1,4}[A-Za-z]?|(?-i:[A-Z]{1,2}))|(?:the\\s+)?(?:\\w+\\s+)?(?:bar\\s+of|of|before|after)\\s+(?:letter\\s+)?(?-i:[A-Z]{1,2}))";
  private static final String BAR =
      "((?:bar\\s+)?\\d{1,4}[A-Za-z]?|(?:the\\s+)?\\w+\\s+(?:bar\\s+of|of|before|after)\\s+(?:letter\\s+)?(?-i:[A-Z]{1,2}))";
  private static final String GO =
      "(?:(?:go|jump|skip|cut|hop|straight|right|directly|then|and|on)[,\\s]+)*";
  private static final String OTHERS =
      "(?:the\\s+)?(?:accordion|piano|keys|drums|percussion|strings|brass|reeds|winds|horns?|flute|oboe|clarinet|trumpets?|trombones?|violins?|violas?|cello|guitar|harp|singers?|voices?|choir)";

  /** A turn of phrase, and what it is said with else. */
  private record Idiom(Pattern said, Function<MatchResult, String> as) {}

  private static final List<Idiom> ALL =
      List.of(
          // out after 40, in at 45: all of them, where nobody is spoken to
          idiom(
              "(^|(?<=[:,]\\s))(?<!\\bbass,\\s)(?<!\\byou,\\s)out\\s+(?:after|at\\s+the\\s+end\\s+of(?!\\s+(?:letter\\s+|mark\\s+)?(?-i:[A-Z]{1,2})\\b))\\s+"
                  + PLACE
                  + ",?\\s+(?:and\\s+)?(?:back\\s+)?in\\s+(?:again\\s+)?(?:at|on)\\s+"
                  + PLACE
                  + "(?=$|[.,])",
              m -> m.group(1) + "after " + m.group(2) + " go to " + m.group(3)),
          idiom(
              "\\b(?:cut|go|jump|skip),?\\s+from\\s+the\\s+end\\s+of\\s+"
                  + BAR
                  + ",?\\s+to\\s+the\\s+(?:beginning|start|top|downbeat)\\s+of\\s+"
                  + PLACE,
              m -> "after " + m.group(1) + " go to " + m.group(2)),
          idiom(
              "\\b(?:go|jump|skip|cut)\\s+from\\s+the\\s+end\\s+of\\s+(?:bar\\s+)?(\\d{1,4}[A-Za-z]?)\\s+to\\s+the\\s+((?:pick-?\\s?up|upbeat)\\s+(?:in)?to\\s+)"
                  + PLACE,
              m -> "cut 1 after " + m.group(1) + " to the " + m.group(2) + m.group(3)),
          idiom(
              "\\b(?:we\\s+)?(?:go|jump)\\s+(?:straight|right|directly)\\s+from\\s+"
                  + BAR
                  + "\\s+into\\s+"
                  + PLACE,
              m -> "after " + m.group(1) + " go to " + m.group(2)),
          idiom(
              "\\b(?:from|after)\\s+the\\s+(?:downbeat|first\\s+beat)\\s+of\\s+"
                  + PLACE
                  + "[,\\s]+"
                  + GO
                  + "to\\s+"
                  + PLACE,
              m -> "after beat 1 of " + m.group(1) + " go to " + m.group(2)),
          idiom(
              "\\b(?:lose|cut|drop|take\\s+out|leave\\s+out)\\s+(\\d|\\w+)\\s+beats\\s+(?:in|of|from)\\s+"
                  + PLACE
                  + ",\\s+the\\s+(first|last)\\s+(\\d|\\w+)(?=$|[.,])",
              m ->
                  same(m.group(1), m.group(4))
                      ? "cut the "
                          + m.group(3)
                          + " "
                          + figure(m.group(1))
                          + " beats of "
                          + m.group(2)
                      : m.group()),
          idiom(
              "\\bthe\\s+section\\s+(?:at|from)\\s+"
                  + PLACE
                  + "\\s+(?:goes|is\\s+(?:gone|out|cut)|comes\\s+out)\\b(?!\\s+to)",
              m -> "letter " + m.group(1).replaceFirst("(?i)^letter\\s+", "") + " is out"),
          idiom(
              "(?:^|(?<=[:,.]\\s))(?:out\\s+are|what's\\s+out\\s+is|the\\s+following\\s+(?:are|is)\\s+out:?)\\s+(?=\\d)",
              m -> "cut "),
          // how often
          idiom(
              "\\b(?:one|an?other)\\s+more\\s+time\\s+(?:round|through|around)\\s+the\\s+repeat(?:\\s+than\\s+(?:is\\s+)?(?:printed|written))?,?\\s+so\\s+(?:that's\\s+)?(\\d|\\w+)(?:\\s+times)?\\s+in\\s+(?:all|total)",
              m -> "play the repeat " + figure(m.group(1)) + " times in all"),
          idiom(
              "\\btag\\s+([^,.;]{1,40}?),?\\s+(once|twice|\\d\\s+times|\\w+\\s+times)\\s+more(?=$|[.,])",
              m -> "play " + m.group(1) + " " + (often(m.group(2)) + 1) + " times in all"),
          idiom(
              "\\bso\\s+(?:just|only)\\s+once\\s+through\\s+(?:those|these|the)\\s+(?:\\d+|\\w+)\\s+bars\\b",
              m -> "so just once through"),
          idiom(
              "\\s+(?:tonight|today)\\s+or\\s+(?:ever\\s+again|any\\s+(?:other\\s+)?(?:night|day|show|time))\\b",
              m -> ""),
          // the player
          idiom(
              "\\bwait\\s+(\\d{1,2})\\s+bars?\\s+and\\s+(?:then\\s+)?come\\s+in\\s+(?:at|on|in)\\s+(?:bar\\s+)?(\\d{1,3})(?=$|[.,])",
              m ->
                  Integer.parseInt(m.group(1)) + 1 == Integer.parseInt(m.group(2))
                      ? "tacet 1 to " + m.group(1)
                      : m.group()),
          idiom(
              "(\\bno\\s+bass\\b[^,.;]*),\\s+it's\\s+(?:just|only)\\s+"
                  + OTHERS
                  + "(?:\\s+there)?(?=$|[.,])",
              m -> m.group(1)),
          // numbers
          idiom(
              "\\bthere(?:'s|\\s+is)\\s+no\\s+(?:number|no\\.)\\s*(\\w{1,4})\\b(?:,\\s+[^,.;]*)?$",
              m -> "No. " + m.group(1) + " is cut"),
          idiom(
              "^(\\d{1,3}[A-Z]?(?:,\\s+then\\s+\\d{1,3}[A-Z]?){2,}),?\\s+that's\\s+the\\s+(?:new\\s+|running\\s+)?order(?:\\s+now)?$",
              m -> "order: " + m.group(1).replaceAll(",\\s+then\\s+", ", ")),
          idiom(
              "^(?:in\\s+(?:no\\.\\s*|number\\s+)?(\\w{1,4}),?\\s+)?"
                  + PLACE
                  + "\\s+comes\\s+(\\d{1,2})\\s+bars?\\s+later[.,;]\\s+(?:it's|that's|they're)\\s+(?:just\\s+|only\\s+)?(\\d{1,2})\\s+more\\s+bars?\\s+of\\s+rest$",
              m ->
                  m.group(3).equals(m.group(4))
                      ? (m.group(1) == null ? "" : "No. " + m.group(1) + ": ")
                          + "insert "
                          + m.group(3)
                          + " bars of rest before "
                          + m.group(2)
                      : m.group()),
          idiom(
              "\\bbars?\\s+of\\s+(2|3|4|5|6|7|9|12|two|three|four|five|six|seven|nine|twelve)\\s+(2|4|8|16|two|four|eight|sixteen)\\b",
              Idioms::meter),
          // the coda sign, whose words mean other things elsewhere
          idiom(
              "\\b(?:ignore|no|without|skip|forget|don't\\s+take|do\\s+not\\s+take)\\s+(?:the\\s+)?(?:coda\\s+(?:jump|sign)|jump\\s+to\\s+the\\s+coda)(?:,?\\s+(?:and\\s+)?(?:after\\s+the\\s+D\\.?S\\.?,?\\s+)?(?:play|go|carry)\\s+(?:right\\s+|straight\\s+)?(?:on\\s+)?(?:through\\s+)?(?:to\\s+the\\s+end|on|through))?(?=$|[.,])",
              m -> "no coda jump"),
          idiom(
              "\\b(?:on\\s+the\\s+D\\.?[SC]\\.?,?\\s+)(?:we\\s+|you\\s+)?(?:don't|do\\s+not)\\s+(?:go|jump)\\s+to\\s+the\\s+coda(?:,?\\s+(?:but\\s+)?(?:play|go|carry)\\s+(?:right\\s+|straight\\s+)?(?:on|through)(?:\\s+(?:through|into|to)\\s+(?:letter\\s+)?(?-i:[A-Z]{1,2}))?)?(?=$|[.,])",
              m -> "no coda jump"),
          idiom(
              "^((?:on\\s+|at\\s+|for\\s+)?(?:the\\s+)?)(matin[e\u00e9]e|evening)(s?\\b.*),\\s+(?:but\\s+|and\\s+)?(?:on\\s+|at\\s+|in\\s+)?(?:the\\s+)?(matin[e\u00e9]e|evening)s?\\s+(?:we\\s+|it's\\s+)?(?:play\\s+|do\\s+)?(?:it\\s+all|everything|all\\s+of\\s+it|the\\s+(?:whole\\s+)?(?:lot|thing)|(?:it\\s+)?as\\s+(?:printed|written)|it\\s+in\\s+full)$",
              m ->
                  m.group(2).equalsIgnoreCase(m.group(4))
                      ? m.group()
                      : m.group(1) + m.group(2) + m.group(3)),
          idiom(
              ",\\s+(?:and\\s+)?not\\s+(?=(?:(?:for|at|on|in)\\s+)?(?:the\\s+)?(?:matin[e\u00e9]es?|evenings?|previews?|understudy|swing)\\b)",
              m -> " but not "),
          // the turns of a rehearsal
          idiom(
              "\\bit's\\s+"
                  + PLACE
                  + "\\s+(?:that\\s+|which\\s+)?(?:goes|is\\s+(?:out|cut|gone))(?=$|[.,])",
              m -> m.group(1) + " is cut"),
          idiom(
              "(^|(?<=[:,.]\\s)|(?<=\\band\\s))((?:bars?\\s+|letter\\s+)?(?:\\d{1,4}[A-Za-z]?|(?-i:[A-Z]{1,2}))(?:\\s*(?:-|to|through)\\s*\\d{1,4}[A-Za-z]?)?)\\s+(?:goes|go)(?:\\s+(?:as\\s+well|too|out|now|completely))*(?=$|[.,])",
              m -> m.group(2) + " is cut"),
          idiom(
              "\\b(?:and\\s+)?(?:then\\s+)?the\\s+next\\s+(?:thing|bar|note)\\s+(?:that\\s+)?(?:you|we)\\s+play\\s+is\\s+"
                  + PLACE,
              m -> "then go to " + m.group(1)),
          idiom(
              "\\bplay\\s+(?:up\\s+)?to\\s+(?:and\\s+including|the\\s+end\\s+of)\\s+(?:bar\\s+)?(\\d{1,4}[A-Za-z]?),?\\s+(?:and\\s+)?then\\s+(?:go|jump)\\s+(?:straight\\s+|on\\s+)?to\\s+"
                  + PLACE,
              m -> "after " + m.group(1) + " go to " + m.group(2)),
          idiom(
              "\\b(?:when|once|after)\\s+(?:we've|you've|we\\s+have|you\\s+have|we|you)\\s+(?:played|done|finished)\\s+"
                  + PLACE
                  + ",?\\s+(?:(?:we|you|then|just)\\s+)*go\\s+back\\s+and\\s+(?:do|play)\\s+"
                  + PLACE
                  + "(?:\\s+again)?(?:,?\\s+(?:just\\s+|only\\s+)?(?:the\\s+)?once(?:\\s+more)?)?(?=$|[.,])",
              m ->
                  m.group(1).equalsIgnoreCase(m.group(2))
                      ? "play " + section(m.group(1)) + " twice"
                      : m.group()),
          idiom(
              "(?:\\bat\\s+the\\s+end\\s+(?:we\\s+|you\\s+)?)?\\b(?:add|play|do|take)\\s+"
                  + PLACE
                  + "\\s+again,?\\s+(once|twice|\\d\\s+times|\\w+\\s+times)\\s+more(?=$|[.,])",
              m -> "play " + section(m.group(1)) + " " + (often(m.group(2)) + 1) + " times in all"),
          idiom(
              "(\\d{1,2})\\s+bars?\\s+for\\s+nothing(?:\\s+(?:at|from)\\s+the\\s+(?:top|start|beginning)|\\s+first|\\s+up\\s+front)?(?=$|[.,])",
              m -> "insert " + m.group(1) + " bars of rest before start"),
          idiom(
              "\\b(stops?|ends?|finish(?:es)?)(?:\\s+dead)?\\s+(?:right\\s+)?(?:at\\s+the\\s+end\\s+of|after)\\s+(?:bar\\s+)?(\\d{1,4}[A-Za-z]?),?\\s+(?:and\\s+)?(?:that's|that\\s+is)\\s+(?:the\\s+(?:last\\s+bar|end)(?:\\s+of\\s+it)?|it|all)(?=$|[.,])",
              m -> "stop after " + m.group(2)),
          idiom("\\bat\\s+half\\s+tempo\\b", m -> "in half time"),
          idiom(
              "(?<!\\bhold\\s)(?<!\\bfermata\\s)\\b(at|from)\\s+((?:bar\\s+|letter\\s+)?(?:\\d{1,4}[A-Za-z]?|(?-i:[A-Z]{1,2})))\\s+for\\s+(\\d{1,2})(?=$|[.,])",
              m -> m.group(1) + " " + m.group(2) + " for " + m.group(3) + " bars"),
          idiom(
              "\\bi\\s+only\\s+want\\s+((?:the\\s+)?first\\s+\\d{1,2}\\s+(?:bars\\s+)?of\\s+(?:letter\\s+)?(?-i:[A-Z]{1,2})),?\\s+(?:and\\s+)?then\\s+(?:go\\s+)?(?:straight\\s+|right\\s+)?(?:on\\s+)?to\\s+"
                  + PLACE,
              m -> "play " + m.group(1) + " and jump to " + m.group(2)),
          idiom(
              ",?\\s+(?:and\\s+)?the\\s+rest\\s+of\\s+(?:the|that|this)\\s+cut\\s+(?:stays|stands|is\\s+still\\s+(?:in|out|on))(?:\\s+(?:in|out|as\\s+it\\s+is))?(?=$|[.,])",
              m -> ""),
          idiom(
              ",\\s+(?:don't|do\\s+not)\\s+play\\s+through\\s+(?:it|that)(?:\\s+like\\s+(?:last\\s+\\w+|yesterday))?(?=$|[.,])",
              m -> ""),
          idiom(
              "\\b(?:sorry,?\\s+)?i(?:'ve|\\s+have)?\\s+changed\\s+my\\s+mind\\s*[:,.-]\\s*(?=(?:letter\\s+|bar\\s+|bars\\s+)?[\\dA-Z])",
              m -> ""),
          idiom(",\\s+i\\s+can't\\s+hear\\s+(?:you|it|them)(?=$|[.,])", m -> ""),
          idiom(
              "^(?:bar\\s+)?(\\d{1,4}[A-Za-z]?):\\s+(G\\.?P\\.?|fermata|hold)(?=$|[.,])",
              m -> m.group(2) + " at " + m.group(1)),
          // what says nothing more
          idiom(
              "(?<=[.;])\\s+(?:it's\\s+)?(?:the\\s+)?same\\s+as\\s+(?:we\\s+(?:did|had)|last\\s+(?:night|time)|yesterday)(?:\\s+(?:at|in)\\s+the\\s+\\w+|\\s+last\\s+night|\\s+yesterday)?[.!]?$",
              m -> ""),
          idiom(
              ",\\s+(?:the\\s+)?new\\s+parts\\s+(?:are\\s+coming|to\\s+follow|will\\s+follow)(?:,?\\s+but\\s+read\\s+it\\s+(?:down|up)\\s+(?:for\\s+now|till\\s+then))?(?=$|[.,])",
              m -> ""),
          idiom("^((?:in\\s+)?(?:number|no\\.)\\s*\\w+)\\s+again:", m -> m.group(1) + ":"),
          idiom(
              "\\b((?:letter|mark)\\s+(?-i:[A-Z]{1,2})),\\s+(first|second|third|fourth|fifth|sixth|seventh|eighth|last)\\s+bar:\\s+(?:i'm\\s+going\\s+to|i'll|we|we'll)\\s+hold\\s+(?:that(?:\\s+one)?|it)(?:,\\s+watch\\s+me)?(?:,\\s+i'll\\s+(?:bring|take|cut)\\s+you\\s+off)?(?=$|[.,])",
              m -> "hold the " + m.group(2) + " bar of " + m.group(1)));

  private Idioms() {}

  private static Idiom idiom(String said, Function<MatchResult, String> as) {
    return new Idiom(phrase(said), as);
  }

  private static final Pattern DIGITS =
      phrase(
          "\\b(bar\\s+)(one|two|three|four|five|six|seven|eight|nine)[-\\s](one|two|three|four|five|six|seven|eight|nine|zero|oh)\\b");

  /** "Bar one-five" is spoken figure by figure. */
  public static String digits(String words) {
    return DIGITS
        .matcher(words)
        .replaceAll(
            m ->
                m.group(1)
                    + figure(m.group(2))
                    + (m.group(3).matches("(?i)zero|oh") ? 0 : figure(m.group(3))));
  }

  /** Returns words with such turns said plainly; as they are where there are none. */
  public static String over(String figures) {
    String text = figures.replaceFirst("[.!\\s]+$", "");
    String plain = text;
    for (Idiom idiom : ALL) {
      plain =
          idiom
              .said()
              .matcher(plain)
              .replaceAll(m -> Matcher.quoteReplacement(idiom.as().apply(m)));
    }
    return plain.equals(text) ? figures : plain.strip();
  }

  private static String meter(MatchResult m) {
    return m.group().split("\\s", 2)[0] + " of " + figure(m.group(1)) + "/" + figure(m.group(2));
  }

  /** A mark that is played again is all up to the next one. */
  private static String section(String place) {
    return place.matches("[A-Z]{1,2}") ? "letter " + place : place;
  }

  private static boolean same(String one, String other) {
    return figure(one) == figure(other) && figure(one) > 0;
  }

  private static int figure(String said) {
    return said.matches("\\d{1,3}")
        ? Integer.parseInt(said)
        : Numerals.value(said.toLowerCase(Locale.ROOT)).orElse(0);
  }

  private static int often(String said) {
    String word = said.toLowerCase(Locale.ROOT).replaceFirst("\\s.*", "");
    return word.equals("once") ? 1 : word.equals("twice") ? 2 : figure(word);
  }
}
