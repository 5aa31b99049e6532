package org.barmap.plan.piece;

import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.plan.change.effect.Leaving;
import org.barmap.plan.change.term.Leave;
import org.barmap.plan.change.term.Numerals;

/**
 * What a printed "Vamp" or "Safety" says (common practice): "VAMP till cue", "vamp bars 5-8",
 * "2-bar vamp", "Safety", "repeat ad lib." A word that only speaks of one ("no vamp", "after the
 * vamp") begins none.
 *
 * @param safety a safety; else a vamp. "Safety vamp" is a safety
 * @param first the first bar, where the word names bars
 * @param last the last bar, where it does
 * @param count how many bars it is, where the word says that
 * @param times how often it is played, where the word says that as well
 * @param leaving how it is left, as far as the word says
 */
public record OpenWord(
    boolean safety,
    Optional<String> first,
    Optional<String> last,
    OptionalInt count,
    OptionalInt times,
    Leaving leaving) {

  private static final int FLAGS = Pattern.CASE_INSENSITIVE | Pattern.UNICODE_CASE;

  private static final String WORD = "(?:vamp|safety)\\b";
  private static final Pattern OPEN = Pattern.compile("\\b" + WORD, FLAGS);

  /** A repeat that goes on until somebody says so is a vamp without the word. */
  private static final Pattern REPEAT =
      Pattern.compile(
          "\\brepeat(?:\\s+(?:bars?|this|these|and|the))*\\s+(?:ad\\s+lib|as\\s+(?:needed|necessary|required)"
              + "|(?:till|until|'?til)\\b|open\\b|on\\s+cue)|\\b(?:open|ad\\s+lib\\.?)\\s+repeat\\b",
          FLAGS);

  private static final Pattern NONE =
      Pattern.compile(
          "\\b(?:no|not|without|cut|omit|ignore|skip|don[’']?t|delete)\\s+(?:an?\\s+|the\\s+)?"
              + WORD
              + "|\\b"
              + WORD
              + "\\s+(?:is\\s+)?(?:cut|omitted|deleted)\\b",
          FLAGS);
  private static final Pattern ELSEWHERE =
      Pattern.compile(
          "\\b(?:end|ends|out|exit|leave|after|before|to|till|until|last\\s+time|last\\s+x)\\s+"
              + "(?:of\\s+)?(?:the\\s+)?"
              + WORD
              + "|\\b"
              + WORD
              + "\\s+(?:ends?|is\\s+over)\\b",
          FLAGS);

  private static final String BAR = "(\\d{1,4}[a-z]?)";
  private static final String BARS = "(?:bars?|measures?|mm?\\.)\\s*";
  private static final Pattern NAMED =
      Pattern.compile(
          "\\b"
              + WORD
              + "\\s*:?\\s*(?:from\\s+|at\\s+)?(?:("
              + BARS
              + ")?"
              + BAR
              + "\\s*(?:[-\\u2013]|to|through|thru)\\s*(?:"
              + BARS
              + ")?"
              + BAR
              + "\\b|"
              + BARS
              + BAR
              + "\\b)",
          FLAGS);
  private static final Pattern COUNTED =
      Pattern.compile(
          "(?<!last )\\b(" + Numerals.CARDINAL + ")[\\s-]+(?:bars?|measures?)\\b", FLAGS);
  private static final Pattern TIMES =
      Pattern.compile("\\b(\\d{1,2})\\s*(?:x|times|\\u00D7)(?:\\b|$)|\\bx\\s*(\\d{1,2})\\b", FLAGS);
  private static final Pattern TILL =
      Pattern.compile(
          "(?:\\b(?:till|until)|'?\\btil)\\s+(?:the\\s+)?(.+?)\\s*(?:[,;(].*|\\bout\\b.*)?$|\\bcue\\s*:\\s*([^)]+)",
          FLAGS);
  private static final Pattern CUE = Pattern.compile("cued?|on cue|further notice", FLAGS);
  private static final Pattern ANY =
      Pattern.compile(
          "\\b(?:out|exit|leave)\\s+(?:at\\s+)?any\\b|\\bany\\s+(?:time|beat)\\b", FLAGS);
  private static final Pattern PASS =
      Pattern.compile("\\bend\\s+of\\s+(?:a\\s+|the\\s+|any\\s+)?(?:pass|phrase|vamp)\\b", FLAGS);

  /** Words at the bar of a vamp that say how it is left. */
  private static final Pattern BESIDE =
      Pattern.compile("\\(?\\s*(?:till|until|'?til|out|exit|leave|cue\\s*:).*", FLAGS);

  /** Returns what a word begins; empty where it begins nothing. */
  public static Optional<OpenWord> read(String text) {
    String said = text.strip().replaceAll("\\s+", " ");
    boolean open = OPEN.matcher(said).find();
    if (!open && !REPEAT.matcher(said).find()) {
      return Optional.empty();
    }
    if (open && (NONE.matcher(said).find() || ELSEWHERE.matcher(said).find())) {
      return Optional.empty();
    }
    Matcher named = NAMED.matcher(said);
    boolean bars = named.find();
    Optional<String> first =
        bars
            ? Optional.ofNullable(named.group(2)).or(() -> Optional.ofNullable(named.group(4)))
            : Optional.empty();
    Optional<String> last =
        bars ? Optional.ofNullable(named.group(3)).or(() -> first) : Optional.empty();
    Matcher counted = COUNTED.matcher(said);
    OptionalInt count =
        !bars && counted.find() ? Numerals.value(counted.group(1)) : OptionalInt.empty();
    Matcher times = TIMES.matcher(said);
    OptionalInt often =
        times.find()
            ? OptionalInt.of(
                Integer.parseInt(times.group(1) != null ? times.group(1) : times.group(2)))
            : OptionalInt.empty();
    boolean safety = said.toLowerCase(Locale.ROOT).contains("safety");
    return Optional.of(new OpenWord(safety, first, last, count, often, leaving(said)));
  }

  /** Tells whether a word beside the one that begins it says how it is left. */
  static boolean beside(String text) {
    return BESIDE.matcher(text.strip()).matches();
  }

  /** Returns the same with what a word beside it says of how it is left. */
  OpenWord with(String text) {
    Leaving more = leaving(text.strip());
    return new OpenWord(
        safety,
        first,
        last,
        count,
        times,
        new Leaving(
            leaving.leave().or(more::leave),
            leaving.cue().or(more::cue),
            leaving.exitBar(),
            leaving.exitBeat()));
  }

  /** Returns the same with a count that stands beside it. */
  OpenWord times(int often) {
    return new OpenWord(safety, first, last, count, OptionalInt.of(often), leaving);
  }

  private static Leaving leaving(String said) {
    Matcher till = TILL.matcher(said);
    Optional<String> cue = Optional.empty();
    if (till.find()) {
      String what = till.group(1) != null ? till.group(1) : till.group(2);
      cue =
          Optional.of(what.replaceAll("[\\s.)\\]]+$", ""))
              .filter(w -> !w.isBlank() && !CUE.matcher(w).matches());
    }
    Optional<Leave> leave =
        ANY.matcher(said).find()
            ? Optional.of(Leave.ANY_TIME)
            : PASS.matcher(said).find() ? Optional.of(Leave.END_OF_PASS) : Optional.empty();
    return new Leaving(leave, cue, Optional.empty(), Optional.empty());
  }
}
