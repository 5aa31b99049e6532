package org.barmap.plan.words.grammar;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.plan.change.term.Numerals;

/** What is about the form and leaves something open: it is asked, with the nearest meanings. */
final class Asked {
  private static final String SECTION =
      "(?<section>(?:(?:whole|entire|little|big|final|last|first|second|short)\\s+)*(?:buttons?|tags?|intro(?:duction)?|outro|bridge|verse|chorus|playoff|bumpers?|stinger|turnaround|break|dance\\s+break|fill"
          + "|interlude|cadenza|vocal|dialogue\\s+section|scene\\s+change(?:\\s+music)?|(?:chord|note|hit|beat|pickup))s?)";

  /** "First ending twice": nobody plays an ending by itself. */
  static final String ENDING =
      "(?:(?:play|take|do)\\s+)?(?:the\\s+)?(?:first|1st)\\s+(?:ending|time\\s+bars?)\\s+(?<often>twice|\\w+\\s+times)(?:\\s+(?:now|only))*[.!]?";

  private static final Pattern IF =
      phrase(
          "(?<only>.+?),?\\s+(?:(?:but\\s+)?only\\s+)?(?:if|when\\s+needed|unless|in\\s+case|as\\s+needed)\\b(?<when>.*)|(?:only\\s+)?(?:if|unless|in\\s+case)\\s+(?<case>.+?),\\s*(?:then\\s+|we\\s+|you\\s+)*(?<then>.+)");

  private static final Pattern CHANGE =
      phrase(
          "(?!.*\\bsafety\\b)(?:(?:we|you|please|also|let's)\\s+)*(?:cut|vamp|repeat|loop|skip|play|go|jump|hold|insert|add|tacet|stop|drop|omit|take|leave\\s+out|do\\s+the|no)\\b.*|.*\\b(?:is|are)\\s+(?:cut|out|a\\s+vamp|tacet)");

  static final List<Rule> RULES =
      List.of(
          Rule.of(
              "(?:.*\\b(?:need|have|want|got)\\s+to\\s+)?(?:stick|put|squeeze|add|slip|fit)\\s+(?:in\\s+)?(?<n>an?|one|\\d{1,2})\\s+(?:extra\\s+|more\\s+|empty\\s+)?bars?\\s+(?:in\\s+)?(?:somewhere\\s+)?(?:round(?:\\s+about)?|around|near|about)\\s+(?<bar>.+?)(?:,.*)?",
              Asked::somewhere),
          Rule.of(ENDING, Asked::ending),
          Rule.of(
              "(?:the\\s+)?vamp(?:'s|\\s+is)(?:\\s+now)?\\s+(?<bars>.+?)(?<now>\\s+now)?(?<not>,?\\s+(?:and\\s+)?not\\s+[^,]+)?",
              Asked::vampIs),
          Rule.of(
              "(?:wait|hold|pause|rest)\\s+(?<n>\\d{1,2}|a|one|two|three|four|six|eight)\\s+(?:more\\s+|extra\\s+)?bars?\\s+(?<where>before|after)\\s+(?<bar>.+)",
              Asked::waits),
          Rule.of(
              "(?:take\\s+it|pick(?:\\s+it)?\\s+up|top|go(?:\\s+again)?|restart|start\\s+again|once\\s+more|again)\\s+(?:from|at)\\s+(?:the\\s+)?(?<bar>.+)",
              (m, bars) -> from(Rule.group(m, "bar"), bars)),
          Rule.of(
              "(?:come|comes|enter|play|start|join)(?:\\s+back)?(?:\\s+in)?\\s+(?:only\\s+)?(?:at|on|with)\\s+(?:the\\s+)?(?:\"?and\"?\\s+of|off-?beat|upbeat|pick-?up)\\b.*",
              (m, bars) -> asks("What comes before that beat: is it left out?")),
          Rule.of(
              "(?:cut|no|without|play|repeat|take|add|tag|do\\s+not\\s+play)\\s+(?:the\\s+|a\\s+|an\\s+)?"
                  + SECTION
                  + "(?:\\s+(?:once|twice|again|\\S+\\s+times|only|music|please|here))?"
                  + "|(?:the\\s+)?"
                  + SECTION.replace("<section>", "<that>")
                  + "\\s+(?:(?:is|are|all|goes)\\s+)*(?:cut|out|gone|twice|\\S+\\s+times)",
              (m, bars) ->
                  asks(
                      "Which bars are \""
                          + Rule.group(m, "section")
                          + Rule.group(m, "that")
                          + "\"?")),
          Rule.of(
              "(?:swap|switch|exchange|move|put)\\s+.*\\d.*",
              (m, bars) ->
                  asks(
                      "Bars in another order are several changes: which bars are out, and where"
                          + " does one go back to?")),
          Rule.of(
              "(?:.*\\b(?:need|add|give|insert|want|have|get)\\b\\s+)?(?:(?:me|us|her|him|them|you)\\s+)?(?:(?:another|an?|extra|more|additional|\\S+\\s+more|\\S+\\s+extra)\\s+)*(?:(?<n>\\d{1,2}|two|three|four|eight|sixteen)\\s+)?(?:extra\\s+|more\\s+|additional\\s+)?(?<what>counts?|8s|eights?|8)\\b.*?(?:(?<where>before|after|at|in)\\s+(?:the\\s+)?(?<bar>.+))?",
              Asked::counts),
          Rule.of(
              "(?:down|up)\\s+.*\\b(?:tone|step|semitone|third|fourth|fifth|octave)s?\\s+(?:from|at|in)\\s.+|(?:from|at)\\s+.*\\b(?:down|up)\\s+.*\\b(?:tone|step|semitone|third|fourth|fifth)s?\\b.*|.*\\b(?:tone|step|semitone|third|fourth|fifth)s?\\s+(?:down|up|lower|higher)\\s+(?:from|at)\\s.+",
              (m, bars) ->
                  asks("A number is transposed whole; in which key is it from that bar on?")));

  private Asked() {}

  /** A change on a condition is none for good: a safety, or a change, or nothing. */
  static Optional<Meant> condition(String words) {
    Matcher m = IF.matcher(words);
    if (!m.matches()) {
      return Optional.empty();
    }
    String change = Rule.group(m, "only") + Rule.group(m, "then");
    if (!CHANGE.matcher(change).matches()) {
      return Optional.empty();
    }
    List<String> nearest = new ArrayList<>();
    Matcher again = phrase("(?:vamp|repeat|loop)\\s+(?:at\\s+|on\\s+)?(.+)").matcher(change);
    if (again.matches()) {
      nearest.add("safety " + again.group(1));
    }
    nearest.add(change);
    return Optional.of(
        new Meant.Asks(
            "Only in some performances: a safety, a change for good, or a note?", nearest));
  }

  private static Optional<Meant> from(String bar, Bars bars) {
    return !bars.named(bar)
        ? Optional.empty()
        : Optional.of(
            new Meant.Asks(
                "Where a rehearsal goes on, or where the number begins from now on?",
                List.of("start at " + bar)));
  }

  /** "The vamp is the first four bars now": in the place of the printed one. */
  private static Optional<Meant> vampIs(Matcher m, Bars bars) {
    String said = Rule.group(m, "bars");
    boolean printed = bars.open("vamp").isPresent();
    return !bars.named(said) || !printed
        ? Optional.empty()
        : Optional.of(new Meant.Says(List.of("no vamp", "vamp " + said)));
  }

  private static Optional<Meant> ending(Matcher m, Bars bars) {
    String often = Rule.group(m, "often").toLowerCase(java.util.Locale.ROOT);
    int times = often.equals("twice") ? 2 : Numerals.value(often.split("\\s", -1)[0]).orElse(0);
    List<String> near =
        times == 0
            ? List.of()
            : bars.repeat()
                .map(r -> List.of("play " + r + " " + (times + 1) + " times"))
                .orElse(List.of());
    return Optional.of(new Meant.Asks("How often is it played in all, with both endings?", near));
  }

  private static Optional<Meant> somewhere(Matcher m, Bars bars) {
    String bar = Rule.group(m, "bar");
    String many = Rule.group(m, "n").matches("\\d+") ? Rule.group(m, "n") : "1";
    return !bars.named(bar)
        ? Optional.empty()
        : Optional.of(
            new Meant.Asks(
                "Between which two bars?",
                List.of(
                    "insert " + many + " bars before " + bar,
                    "insert " + many + " bars after " + bar)));
  }

  /** "Wait two bars before B": in the second bar before it, or for so long right before it. */
  private static Optional<Meant> waits(Matcher m, Bars bars) {
    String bar = Rule.group(m, "bar");
    String many = Rule.group(m, "n");
    String where = Rule.group(m, "where").toLowerCase(java.util.Locale.ROOT);
    return !bars.named(bar)
        ? Optional.empty()
        : Optional.of(
            new Meant.Asks(
                "Does one wait in that bar, or for so many bars?",
                List.of(
                    "hold " + many + " " + where + " " + bar,
                    "insert " + many + " bars of rest " + where + " " + bar)));
  }

  private static Optional<Meant> asks(String question) {
    return Optional.of(new Meant.Asks(question, List.of()));
  }

  /** A dancer's eight is two bars of four beats; what is played in them nobody said. */
  private static Optional<Meant> counts(Matcher m, Bars bars) {
    String bar = Rule.group(m, "bar");
    String where = Rule.group(m, "where");
    boolean place = !bar.isEmpty() && bars.named(bar) && where.matches("(?i)before|after");
    String question = "How many bars is that, and what is played in them?";
    return Optional.of(
        new Meant.Asks(
            question,
            place
                    && Rule.group(m, "what").toLowerCase(java.util.Locale.ROOT).startsWith("count")
                    && Rule.group(m, "n").equals("8")
                ? List.of("insert 2 bars " + where + " " + bar)
                : List.of()));
  }
}
