package org.barmap.plan.change;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.plan.change.term.NoteNames;
import org.barmap.plan.change.term.Numerals;

/**
 * A bar as a player says it, taken apart but not yet looked up in a book.
 *
 * <p>Understood: {@code 34}, {@code bar 34}, {@code 24A}, {@code B}, {@code letter B}, {@code 4
 * before B}, {@code four bars after B}, {@code the bar before B}, {@code third of B}, {@code 3rd
 * bar of B} (B itself is the first), {@code B + 2}, {@code B minus 1}, {@code start}, {@code end},
 * {@code 24 in the 2nd ending} where a number occurs twice, {@code the coda}, {@code the sign},
 * each with {@code beat 3} behind it or {@code beat 3 of} before it, or with {@code eighth 4},
 * where the beats shown are not the meter's lower figure (common practice).
 *
 * @param anchor what is counted from, without the words around it
 * @param kind what the anchor has to be
 * @param offset bars to go on from there
 * @param beat the beat named, or which of the notes that {@code unit} names
 * @param ending the ending the anchor lies in, where one was named
 * @param unit which notes of the bar are counted, 8 for eighths; empty where beats are
 */
public record Address(
    String anchor,
    Kind kind,
    int offset,
    OptionalDouble beat,
    OptionalInt ending,
    OptionalInt unit) {

  /** What an anchor is. */
  public enum Kind {
    /** A bar number, a label or a rehearsal mark. */
    ANY,
    /** A bar number or label: the word "bar" was said. */
    BAR,
    /** A rehearsal mark: "letter", "mark" or "figure" was said. */
    MARK,
    /** The bar at the coda sign or the segno. */
    SIGN,
    /** The first bar. */
    START,
    /** The last bar. */
    END
  }

  private static final String BARS = "(?:bars?|measures?|mm?\\.?|bb?\\.|msr\\.?)";
  private static final String BEAT = "(?:beat|bt\\.?)";
  private static final String NUMBER = "(" + Numerals.CARDINAL + ")";
  private static final Pattern BEAT_LAST =
      phrase("(.+?),?\\s+(?:(?:on|at)\\s+)?" + BEAT + "\\s*(" + Numerals.CARDINAL + "(?:\\.5)?)");
  private static final Pattern NOTE_LAST = phrase("(.+?),?\\s+(\\p{L}{4,14})\\s+(\\d{1,2})");
  private static final Pattern BEAT_FIRST =
      phrase(
          "(?:the\\s+)?(?:"
              + BEAT
              + "\\s*("
              + Numerals.CARDINAL
              + "(?:\\.5)?)|("
              + Numerals.ORDINAL
              + ")\\s+beat)\\s+(?:of|in)\\s+(.+)");
  private static final Pattern BEFORE_AFTER =
      phrase(
          "(?:the\\s+bar|(?:the\\s+)?"
              + NUMBER
              + "(?:\\s+"
              + BARS
              + ")?)\\s+(before|after)\\s+(.+)");
  private static final Pattern ORDINAL_OF =
      phrase("(?:the\\s+)?(" + Numerals.ORDINAL + ")(?:\\s+" + BARS + ")?\\s+(?:of|in)\\s+(.+)");
  private static final Pattern PLUS =
      phrase(
          "(.+?)\\s*(\\+|-|\\u2212|\\bplus\\b|\\bminus\\b)\\s*" + NUMBER + "(?:\\s+" + BARS + ")?");
  private static final Pattern SAID_BAR = phrase(BARS + "\\s*(\\d.*)");
  private static final Pattern SAID_MARK =
      phrase(
          "(?:rehearsal\\s+)?(?:letter|mark|figure|fig\\.?|rehearsal|reh\\.?|box|cue)\\s+(.+)|\\[(.+)\\]");
  private static final Pattern THE_BAR_AT =
      phrase("(?:the\\s+)?(?:bar|measure)\\s+(?:(?:at|of)\\s+)?(.+)");
  private static final Pattern SIGN = phrase("(?:the\\s+)?(coda|segno|sign)(?:\\s+sign)?");
  private static final Pattern START = phrase("(?:the\\s+)?(?:start|beginning|top|first\\s+bar)");
  private static final Pattern END = phrase("(?:the\\s+)?(?:end|last(?:\\s+bar)?)");
  private static final Pattern PICKUP = phrase("(?:the\\s+)?(?:pick-?up|upbeat)(?:\\s+bar)?");
  private static final Pattern IN_ENDING =
      phrase(
          "(.+?),?\\s+\\(?(?:(?:in|of)\\s+)?(?:the\\s+)?("
              + Numerals.ORDINAL
              + ")[\\s-](?:ending|time)(?:\\s+bars?)?\\)?");
  private static final Pattern PLAIN = Pattern.compile("[\\p{L}\\p{N}][\\p{L}\\p{N}.'#]{0,11}");

  /** Takes an address apart; empty when the words are no address. */
  public static Optional<Address> parse(String words) {
    String text = words.strip().replaceAll("\\s+", " ");
    if (text.isEmpty() || text.length() > 60) {
      return Optional.empty();
    }
    if (text.length() <= 6 && text.chars().allMatch(c -> c >= '0' && c <= '9')) {
      return Optional.of(plain(text, Kind.ANY)); // most addresses are a bar number
    }
    Matcher last = BEAT_LAST.matcher(text);
    if (last.matches()) {
      return withBeat(last.group(1), last.group(2));
    }
    Matcher note = NOTE_LAST.matcher(text);
    if (note.matches() && NoteNames.unit(note.group(2)).isPresent()) {
      OptionalInt unit = NoteNames.unit(note.group(2));
      return withBeat(note.group(1), note.group(3))
          .map(a -> new Address(a.anchor, a.kind, a.offset, a.beat, a.ending, unit));
    }
    Matcher first = BEAT_FIRST.matcher(text);
    if (first.matches()) {
      String beat = first.group(1) == null ? first.group(2) : first.group(1);
      return withBeat(first.group(3), beat);
    }
    Matcher before = BEFORE_AFTER.matcher(text.replaceFirst("(?i)^the bar (?=\\w+ before )", ""));
    if (before.matches()) {
      int bars = before.group(1) == null ? 1 : Numerals.value(before.group(1)).orElse(0);
      boolean back = before.group(2).toLowerCase(Locale.ROOT).equals("before");
      return anchor(before.group(3)).map(a -> a.moved(back ? -bars : bars));
    }
    Matcher ordinal = ORDINAL_OF.matcher(text);
    if (ordinal.matches()) {
      OptionalInt nth = Numerals.value(ordinal.group(1));
      return nth.isEmpty() || nth.getAsInt() < 1
          ? Optional.empty()
          : anchor(ordinal.group(2)).map(a -> a.moved(nth.getAsInt() - 1));
    }
    Matcher plus = PLUS.matcher(text);
    if (plus.matches()) {
      int bars = Numerals.value(plus.group(3)).orElse(0);
      boolean on = plus.group(2).equals("+") || plus.group(2).equalsIgnoreCase("plus");
      return anchor(plus.group(1)).map(a -> a.moved(on ? bars : -bars));
    }
    return anchor(text);
  }

  private static Optional<Address> withBeat(String bar, String beat) {
    double value =
        beat.endsWith(".5")
            ? Numerals.value(beat.substring(0, beat.length() - 2)).orElse(0) + 0.5
            : Numerals.value(beat).orElse(0);
    if (value < 1) {
      return Optional.empty();
    }
    return parse(bar)
        .filter(a -> a.beat.isEmpty())
        .map(
            a ->
                new Address(
                    a.anchor, a.kind, a.offset, OptionalDouble.of(value), a.ending, a.unit));
  }

  private static Optional<Address> anchor(String words) {
    String text = words.strip();
    Matcher ending = IN_ENDING.matcher(text);
    if (ending.matches()) {
      OptionalInt nth = Numerals.value(ending.group(2));
      return nth.isEmpty()
          ? Optional.empty()
          : anchor(ending.group(1)).map(a -> new Address(a.anchor, a.kind, 0, a.beat, nth, a.unit));
    }
    if (END.matcher(text).matches()) {
      return Optional.of(plain(text, Kind.END));
    }
    if (START.matcher(text).matches()) {
      return Optional.of(plain(text, Kind.START));
    }
    if (PICKUP.matcher(text).matches()) {
      return Optional.of(plain("0", Kind.BAR));
    }
    Matcher bar = SAID_BAR.matcher(text);
    if (bar.matches()) {
      return ifPlain(bar.group(1), Kind.BAR);
    }
    Matcher sign = SIGN.matcher(text);
    if (sign.matches()) {
      return Optional.of(plain(sign.group(1), Kind.SIGN));
    }
    Matcher mark = SAID_MARK.matcher(text);
    if (mark.matches()) {
      return ifPlain(mark.group(1) == null ? mark.group(2) : mark.group(1), Kind.MARK);
    }
    Matcher at = THE_BAR_AT.matcher(text);
    return at.matches() ? anchor(at.group(1)) : ifPlain(text, Kind.ANY);
  }

  private static Optional<Address> ifPlain(String word, Kind kind) {
    return PLAIN.matcher(word).matches() ? Optional.of(plain(word, kind)) : Optional.empty();
  }

  private static Address plain(String word, Kind kind) {
    return new Address(
        word, kind, 0, OptionalDouble.empty(), OptionalInt.empty(), OptionalInt.empty());
  }

  private Address moved(int bars) {
    return new Address(anchor, kind, offset + bars, beat, ending, unit);
  }
}
