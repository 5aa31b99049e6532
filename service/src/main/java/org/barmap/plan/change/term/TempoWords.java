package org.barmap.plan.change.term;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.barmap.map.Word;

/**
 * What words over a bar say of the tempo. A figure makes it known; a word without a figure makes it
 * unknown; double and half time, metric modulations and "the same tempo" hang on the tempo before
 * (common practice). A feel, and how eighths are played, are no tempo.
 *
 * @param kind what happens to the tempo
 * @param figure quarters a minute of {@link Kind#FIGURE}
 * @param relation how the old tempo gives the new one, of {@link Kind#RELATION}
 */
public record TempoWords(Kind kind, OptionalDouble figure, Optional<NoteRelation> relation) {

  /** What words do to the tempo. */
  public enum Kind {
    /** Nothing. */
    NONE,
    /** It is known from here. */
    FIGURE,
    /** Twice as fast as before. */
    TWICE,
    /** Half as fast as before. */
    HALF,
    /** A note of the tempo before lasts as long as another one now. */
    RELATION,
    /** The beat goes on as before. */
    SAME,
    /** Back to the tempo before it was left. */
    BACK,
    /** Back to the first tempo of the number. */
    FIRST,
    /** Slower by and by. */
    SLOWING,
    /** Faster by and by. */
    QUICKENING,
    /** Out of time, or by and by nobody says which way. */
    FREE,
    /** Another tempo, nobody knows which. */
    OTHER
  }

  private static final int MOST_HEADING_WORDS = 6;

  /** Longer ones are no direction, and not remembered. */
  private static final int MOST_LETTERS = 200;

  /** What looks like a metronome mark, well read or not. */
  private static final Pattern ANY_MARK =
      Pattern.compile("=\\s*(?:ca?\\.?\\s*)?\\d|\\(\\s*\\S{0,2}\\s*=");

  private static final Heard<String, TempoWords> HEARD = new Heard<>();

  private static final TempoWords NOTHING = plain(Kind.NONE);

  private static TempoWords plain(Kind kind) {
    return new TempoWords(kind, OptionalDouble.empty(), Optional.empty());
  }

  /** Returns what all words over one bar say together. */
  public static TempoWords of(List<Word> words) {
    return words.isEmpty()
        ? NOTHING
        : read(words.stream().map(Word::text).collect(Collectors.joining("\n")));
  }

  /** Returns what words say; lines are single directions at one bar. */
  public static TempoWords read(String said) {
    return said.length() > MOST_LETTERS ? meant(said) : HEARD.of(said, () -> meant(said));
  }

  private static TempoWords meant(String said) {
    String words = TempoVocabulary.SWUNG.matcher(said).replaceAll(" ");
    OptionalDouble figure = figure(words);
    if (figure.isPresent()) {
      return new TempoWords(Kind.FIGURE, figure, Optional.empty());
    }
    Optional<NoteRelation> relation = NoteRelation.read(words);
    if (relation.isPresent()) {
      return new TempoWords(Kind.RELATION, OptionalDouble.empty(), relation);
    }
    if (ANY_MARK.matcher(words).find()) {
      return plain(Kind.OTHER);
    }
    String folded = without(TempoVocabulary.SPOKEN, TempoVocabulary.fold(words));
    String played = without(TempoVocabulary.PATTERN_ONLY, folded);
    return plain(kind(without(TempoVocabulary.LOUDNESS, played), heading(words)));
  }

  private static OptionalDouble figure(String words) {
    OptionalDouble last = OptionalDouble.empty();
    for (String line : words.split("\n", -1)) {
      OptionalDouble here = Metronome.quartersPerMinute(line);
      last = here.isPresent() ? here : last;
    }
    return last;
  }

  private static Kind kind(String said, boolean heading) {
    if (found(TempoVocabulary.HALF, said)) {
      return Kind.HALF;
    }
    if (found(TempoVocabulary.TWICE, said)) {
      return Kind.TWICE;
    }
    int other = Math.max(last(TempoVocabulary.SLOWER, said), last(TempoVocabulary.FASTER, said));
    int first = last(TempoVocabulary.FIRST, said);
    int back = Math.max(last(TempoVocabulary.BACK, said), alone(said));
    int by = Math.max(last(TempoVocabulary.SLOWING, said), last(TempoVocabulary.QUICKENING, said));
    if (Math.max(first, back) >= 0) {
      // "a tempo, poco meno" is another tempo; "rit. a tempo" is one that was left and comes back.
      if (other > Math.max(first, back)) {
        return Kind.OTHER;
      }
      return by > Math.max(first, back) ? byAndBy(said) : first >= 0 ? Kind.FIRST : Kind.BACK;
    }
    if (found(TempoVocabulary.SAME, said)) {
      return other >= 0 ? Kind.OTHER : Kind.SAME;
    }
    if (found(TempoVocabulary.GRADUALLY, said) && by < 0) {
      boolean slower = found(TempoVocabulary.SLOWER, said) || found(TempoVocabulary.SLOW, said);
      boolean faster = found(TempoVocabulary.FASTER, said) || found(TempoVocabulary.FAST, said);
      if (slower != faster) {
        return slower ? Kind.SLOWING : Kind.QUICKENING;
      }
    }
    if (other >= 0 && by < 0) {
      return Kind.OTHER;
    }
    // "colla voce" beside "slowly" is out of time at a tempo that nobody knows
    String rest = without(TempoVocabulary.SLOWING, without(TempoVocabulary.QUICKENING, said));
    if (found(TempoVocabulary.NAMED, rest) || heading) {
      return Kind.OTHER;
    }
    if (by >= 0) {
      return byAndBy(said);
    }
    boolean free =
        found(TempoVocabulary.FREE, said)
            || said.lines().anyMatch(l -> TempoVocabulary.FREE_ALONE.matcher(l.strip()).matches());
    return free ? Kind.FREE : Kind.NONE;
  }

  private static Kind byAndBy(String said) {
    boolean slowing = found(TempoVocabulary.SLOWING, said);
    boolean quickening = found(TempoVocabulary.QUICKENING, said);
    return slowing == quickening ? Kind.FREE : slowing ? Kind.SLOWING : Kind.QUICKENING;
  }

  /** A short line in a capital that is no cue and no instruction, with a dance or a character. */
  private static boolean heading(String words) {
    return words
        .lines()
        .map(l -> l.strip().replaceFirst("^[(\\[]", ""))
        .filter(l -> !l.isEmpty() && Character.isUpperCase(l.codePointAt(0)))
        .map(l -> without(TempoVocabulary.SPOKEN, TempoVocabulary.fold(l)))
        .map(l -> without(TempoVocabulary.PATTERN_ONLY, l).strip())
        .filter(l -> l.split("\\s+", -1).length <= MOST_HEADING_WORDS)
        .filter(l -> !found(TempoVocabulary.NO_HEADING, l) || found(TempoVocabulary.LIGHT, l))
        .anyMatch(l -> found(TempoVocabulary.HEADING, l) || found(TempoVocabulary.LIGHT, l));
  }

  private static int alone(String said) {
    int at = 0;
    for (String line : said.split("\n", -1)) {
      if (TempoVocabulary.BACK_ALONE.matcher(line.strip()).matches()) {
        return at;
      }
      at += line.length() + 1;
    }
    return -1;
  }

  private static boolean found(Pattern words, String said) {
    return words.matcher(said).find();
  }

  private static String without(Pattern words, String said) {
    return words.matcher(said).replaceAll(" ");
  }

  private static int last(Pattern words, String said) {
    Matcher matcher = words.matcher(said);
    int last = -1;
    while (matcher.find()) {
      last = matcher.start();
    }
    return last;
  }
}
