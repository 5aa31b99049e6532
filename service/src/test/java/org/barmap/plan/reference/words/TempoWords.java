package org.barmap.plan.reference.words;

import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What a word says of the tempo. Source: trade.md, "a word without a figure"; decided, no guessed
 * seconds.
 */
public final class TempoWords {

  /** What a word does to the tempo. */
  public enum Sense {
    /** A figure: the tempo is known from here. */
    FIGURE,
    /** Twice the tempo before. */
    DOUBLE,
    /** Half the tempo before. */
    HALF,
    /** Back to the tempo before the rit. or accel. */
    A_TEMPO,
    /** Back to the first tempo of the number. */
    TEMPO_I,
    /** By and by: not known until it ends. */
    GRADUAL,
    /** The same beat: the tempo before, or not known. */
    SAME,
    /** A tempo word without a figure: not known. */
    BARE,
    /** Nothing about the tempo. */
    NONE
  }

  /** Half notes: one sign, or a head and a stem. */
  private static final String HALF_NOTE = "\uD834\uDD5E|\uD834\uDD57\uD834\uDD65|half|\\bh";

  private static final String QUARTER_NOTE = "\uD834\uDD5F|♩|quarter|\\bq";
  private static final String EIGHTH_NOTE = "♪|eighth|\\be";
  private static final Pattern FIGURE =
      Pattern.compile(
          "(dotted )?(?:(?<half>"
              + HALF_NOTE
              + ")|(?<quarter>"
              + QUARTER_NOTE
              + ")|(?<eighth>"
              + EIGHTH_NOTE
              + "))\\s*(?<dot>\\.?)\\s*=\\s*(?:ca?\\.)?\\s*(?<figure>\\d{2,3}(?:\\.\\d+)?)");

  // Source: common practice, the usual tempo words; a figure beside one counts instead.
  private static final List<String> BARE =
      List.of(
          "grave",
          "largo",
          "larghetto",
          "lento",
          "adagio",
          "andante",
          "andantino",
          "moderato",
          "allegretto",
          "allegro",
          "vivace",
          "presto",
          "maestoso",
          "waltz",
          "swing",
          "ballad",
          "bossa",
          "tango",
          "march",
          "broadly",
          "broad",
          "faster",
          "slower",
          "fast",
          "slow",
          "rubato",
          "colla voce",
          "freely",
          "poco meno",
          "meno mosso",
          "piu mosso",
          "più mosso",
          "poco più",
          "poco piu",
          "with motion",
          "rock",
          "jig",
          "steady",
          "driving",
          "pesante",
          "misterioso",
          "gospel",
          "tempo di",
          "animato",
          "agitato",
          "vif",
          "modéré",
          "lent",
          "langsam",
          "breit");

  private static final Pattern GRADUAL =
      Pattern.compile("\\b(rit|riten|ritenuto|ritard|rall|accel|string|allarg|calando)\\b");

  private TempoWords() {}

  /** What a printed word says of the tempo. */
  public static Sense sense(String word) {
    String said = word.toLowerCase(Locale.ROOT).strip();
    if (quarters(word).isPresent()) {
      return Sense.FIGURE;
    }
    if (said.matches(".*\\b(double[ -]time)\\b.*")) {
      return Sense.DOUBLE;
    }
    if (said.matches(".*\\b(half[ -]time)\\b.*")) {
      return Sense.HALF;
    }
    if (said.matches(".*\\b(tempo (i|1|primo)|1st tempo)\\b.*")) {
      return Sense.TEMPO_I;
    }
    if (said.matches(".*\\ba tempo\\b.*")) {
      return Sense.A_TEMPO;
    }
    if (said.contains("istesso")) {
      return Sense.SAME;
    }
    if (GRADUAL.matcher(said).find()) {
      return Sense.GRADUAL;
    }
    boolean bare =
        BARE.stream().anyMatch(b -> said.matches("(.*[^\\p{L}])?" + b + "([^\\p{L}].*)?"));
    return bare ? Sense.BARE : Sense.NONE;
  }

  /** Quarter notes a minute of a word with a figure. Source: oracles.md, Counting and time. */
  /** Quarters a minute, where a figure is printed. */
  public static OptionalDouble quarters(String word) {
    Matcher found = FIGURE.matcher(word);
    if (!found.find()) {
      return OptionalDouble.empty();
    }
    boolean dotted = found.group(1) != null || !found.group("dot").isEmpty();
    double length = found.group("half") != null ? 2 : found.group("quarter") != null ? 1 : 0.5;
    return OptionalDouble.of(
        length * (dotted ? 1.5 : 1) * Double.parseDouble(found.group("figure")));
  }
}
