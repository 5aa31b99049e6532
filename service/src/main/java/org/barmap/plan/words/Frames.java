package org.barmap.plan.words;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.plan.change.term.Pass;

/**
 * Other ways to say the same: a sentence as it is said in a rehearsal ("we're cutting 13 to 20",
 * "out after 40, back in at F", "on the repeat cut 3 to 4") in the words that the kinds of change
 * know. What none of these frames fits stays as it is.
 */
final class Frames {
  private static final Pattern FILLED =
      phrase("^(?:(?:okay|ok|so|now|please|also|just|then|and|right)\\b[,\\s]+)+(?=\\S)");
  private static final String BEHIND =
      "(?i),?\\s+(?:please|thanks|thank\\s+you|for\\s+(?:time|now|length)|okay|ok)[.!]?$";
  private static final Pattern WE =
      phrase(
          "^(?:(?:we|you|i|they)(?:'(?:re|ll|d|m|ve)|\\s+(?:are|will|would|can|should|(?:have|want|need)(?=\\s+to)))?"
              + "|let'?s|let\\s+us)\\s+(?:(?:now|just|also|all|going\\s+to|gonna|to|please|like\\s+to)\\s+)*");
  private static final Pattern DOING =
      phrase(
          "^(cutt|skipp|dropp|los|omitt|leav|tak|jump|go|start|stopp|play|add|insert|vamp|hold|repeat|open|restor|putt)ing\\b");
  private static final String STOPS = "(?:stops?|ends?|finish(?:es)?|(?:get\\s+|go\\s+)?out)";
  private static final String DOWNBEAT =
      "(?:the\\s+)?(?:downbeat|first\\s+beat|beat\\s+(?:one|1))\\s+of\\s+(?:bar\\s+)?(.+?)";
  private static final String IN =
      ",?\\s+(?:and\\s+|then\\s+)?(?:come\\s+|go\\s+)?(?:back\\s+)?in\\s+(?:again\\s+)?(?:at|on|with)\\s+(.+)";
  private static final String ALL =
      "(?:(?:is|it's|goes|all|everything|now|plays?|played|do\\s+it)\\s+)*";
  private static final String FEW = "(\\S+(?:\\s\\S+){0,2}?)";

  /** Two places said one after the other: what lies between is out. */
  private static final List<Frame> PLACES =
      List.of(
          frame(
              "(?:go\\s+|get\\s+)?out\\s+(?:at\\s+the\\s+end\\s+of|after)\\s+(.+?)" + IN,
              "after $1 go to $2"),
          frame(
              "(?:go\\s+|get\\s+)?out\\s+at\\s+(?!the\\s+end)(.+?)" + IN,
              "cut $1 to beginning of $2"),
          frame(
              "(?:when|once|as\\s+soon\\s+as)\\s+(?:you|we)\\s+(?:get|come|are|reach)(?:\\s+to|\\s+at)?\\s+(\\S+(?:\\s\\S+)?),?"
                  + "\\s+(?:(?:then|we|you|just)\\s+)*(?:go|jump|cut|skip|hop)(?:\\s+(?:straight|right|directly|on|ahead|over))*\\s+to\\s+(.+)",
              "cut $1 to beginning of $2"));

  private static final List<Frame> SAID =
      List.of(
          frame(
              "(?:play|take|do)\\s+(?:(?:it|this)\\s+)?(?:just\\s+)?(?:once|one\\s+time)(?:\\s+through)?(?:\\s+only)?"
                  + "|(?:just\\s+|only\\s+)?(?:once|one\\s+time)\\s+through(?:\\s+only)?|(?:play\\s+)?(?:it\\s+)?straight\\s+through",
              "no repeats"),
          frame(
              "(?:play|take|do)\\s+(?:it(?:\\s+all)?|this)\\s+(twice|\\S+\\s+times)(?:\\s+through)?",
              "play everything $1"),
          frame(
              "(?:repeat|loop|cycle|keep\\s+(?:on\\s+)?(?:playing|repeating))\\s+(.+?),?\\s+(?:until|till|'?til)\\s+(.+)",
              "vamp $1 till $2"),
          frame("(\\S+)[\\s-]bars?\\s+vamp\\s+(?:at|from|on)\\s+(.+)", "vamp the $1 bars from $2"),
          frame(
              "(from\\s+\\S+)[,:]?\\s+(?:it's|it\\s+is|it\\s+goes|we're|we\\s+go|is)\\s+(.+)",
              "$2 $1"),
          frame(
              "(?:(?:is|it's|now|goes|go)\\s+)+at\\s+(?:about\\s+)?(\\d{2,3})(?:\\s*bpm)?",
              "tempo $1 at start"),
          frame(
              "(\\S+\\s+(?:extra|more)\\s+bars?(?:\\s+(?:of\\s+)?rest)?\\s+(?:before|after)\\s+.+)",
              "add $1"),
          frame(
              "(?:an?\\s+)?(?:big|long|short|huge|slight|little|small)\\s+((?:fermata|hold|rit|rall|g\\.?p|accel)\\b.+)",
              "$1"),
          frame("(?:an?\\s+)?(\\S+(?:\\s\\S+)?)\\s+(up|down)", "$2 a $1"),
          frame(
              "stop\\s+dead\\s+(after\\s+\\S+)(?:,?\\s+(?:and\\s+)?wait\\s+for\\s+(.+))",
              "dead stop $1 till $2"),
          frame("stop\\s+dead\\s+(after\\s+\\S+)", "dead stop $1"),
          frame("(?:bring|put)\\s+back\\s+(?:in\\s+)?(.+)", "$1 back in"),
          frame("(?:bring|put|take)\\s+(.+?)\\s+back(?:\\s+in(?:to\\s+.+)?)?", "$1 back in"),
          frame("(?:reinstate|un-?cut)\\s+(.+)", "$1 back in"),
          frame(
              "(?:open(?:\\s+up)?|undo|lift|forget|scratch)\\s+(?:the|this|that|our)\\s+cuts?|no\\s+cuts?(?:\\s+any\\s?more)?",
              "start to end back in"),
          frame(STOPS + "\\s+(?:on|at|with)\\s+" + DOWNBEAT, "cut $1 beat 2 to end"),
          frame(
              "(?:just\\s+)?play\\s+(?:(?:only\\s+)?(?:up\\s+)?to|through|as\\s+far\\s+as)\\s+"
                  + DOWNBEAT
                  + "(?:\\s+and\\s+stop)?",
              "cut $1 beat 2 to end"),
          frame(ALL + "(?:an?\\s+)?" + FEW + "\\s+lower(?:\\s+(from\\s+.+))?", "down $1 $2"),
          frame(ALL + "(?:an?\\s+)?" + FEW + "\\s+higher(?:\\s+(from\\s+.+))?", "up $1 $2"),
          frame(
              ALL
                  + "(?:on|with)\\s+(?:the\\s+)?"
                  + FEW
                  + "(?:\\s+(?:throughout|all\\s+the\\s+way(?:\\s+through)?))?",
              "$1 at start"),
          frame(FEW + "\\s+(?:throughout|all\\s+the\\s+way)", "$1 at start"),
          frame(
              "(?:make\\s+)?(?:(?:bar|measure)\\s+)?(\\w{1,5})\\s+(?:(?:is|as|becomes?|now|to)\\s+)*(?:in(?:to)?\\s+)?(?:an?\\s+)?(\\d{1,2}/\\d{1,2})(?:\\s+(?:bar|measure))?",
              "$1 in $2"),
          frame("(?:lay|sit|stay|drop)\\s+out\\s+(?:of\\s+|in\\s+)?(.+)", "tacet $1"),
          frame("(?:don't|do\\s+not)\\s+play\\s+(.+)", "tacet $1"),
          frame(
              "("
                  + Pass.SAID
                  + ")(?:\\s+only|\\s+through)?,?\\s+(cut|skip|omit|lose|drop|tacet)\\s+(.+)",
              "$2 $3 $1"));

  private Frames() {}

  /** One way to say it, and what it comes to. */
  private record Frame(Pattern said, String put) {
    Optional<String> over(String words) {
      Matcher m = said.matcher(words);
      return m.matches() ? Optional.of(m.replaceFirst(put).strip()) : Optional.empty();
    }
  }

  private static Frame frame(String said, String put) {
    return new Frame(phrase("^(?:" + said + ")$"), put);
  }

  /** "We're doing No. 5 a tone down" is about No. 5. */
  static String number(String line) {
    return line.replaceFirst(
        "(?i)^(?:we're|we\\s+are|let's|we)\\s+(?:now\\s+)?(?:doing|playing|taking|do|play|take)\\s+(?=(?:no\\b|number\\b|#))",
        "");
  }

  /** Puts two places of two clauses into one, before a line is taken apart at its commas. */
  static String places(String line) {
    return first(PLACES, bare(line)).orElse(line);
  }

  /** Returns an instruction in the words of the kinds; as it is where no frame fits. */
  static String plain(String words) {
    String bare = bare(words);
    return first(SAID, bare).orElse(bare);
  }

  private static Optional<String> first(List<Frame> frames, String words) {
    return frames.stream().flatMap(f -> f.over(words).stream()).findFirst();
  }

  /** Leaves out who does it, and what only fills. */
  private static String bare(String words) {
    String text = FILLED.matcher(words.strip()).replaceFirst("").replaceFirst(BEHIND, "");
    String done = WE.matcher(text).replaceFirst("");
    Matcher doing = DOING.matcher(done);
    return doing.find() ? verb(doing.group(1)) + done.substring(doing.end()) : done;
  }

  private static String verb(String stem) {
    return switch (stem.toLowerCase(Locale.ROOT)) {
      case "cutt", "skipp", "dropp", "omitt", "stopp", "putt" ->
          stem.substring(0, stem.length() - 1);
      case "los", "leav", "tak", "restor" -> stem + "e";
      default -> stem;
    };
  }
}
