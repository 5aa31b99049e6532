package org.barmap.plan.change.term;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.map.Key;

/** Intervals by which music is moved up or down, in semitones, and keys moved by them. */
public final class Transposed {
  /** A semitone up is seven fifths up. */
  private static final int FIFTHS = 7;

  private static final int CIRCLE = 12;

  /** From here on the other spelling has fewer sharps or flats. */
  private static final int EVEN = 6;

  private static final List<String> NAMES =
      List.of(
          "unison",
          "semitone",
          "whole tone",
          "minor third",
          "major third",
          "fourth",
          "tritone",
          "fifth",
          "minor sixth",
          "major sixth",
          "minor seventh",
          "major seventh",
          "octave");

  private static final Pattern NAMED =
      phrase(
          "(?:a\\s+|an\\s+|one\\s+)?(semitone|half[\\s-]?(?:step|tone)|whole[\\s-]?(?:step|tone)|tone|step|"
              + "(?:minor|major|perfect|augmented)\\s+(?:second|third|fourth|fifth|sixth|seventh|2nd|3rd|4th|5th|6th|7th)|"
              + "fourth|4th|fifth|5th|tritone|octave)");
  private static final Pattern COUNTED =
      phrase(
          "("
              + Numerals.CARDINAL
              + ")\\s+(semitones?|half[\\s-]?steps?|tones|whole[\\s-]?(?:tones|steps))");

  private Transposed() {}

  /**
   * Returns a key so many semitones higher, in the spelling with fewer sharps or flats; six sharps
   * or six flats as the key before (circle of fifths).
   */
  public static Key key(Key before, int semitones) {
    int fifths = Math.floorMod(before.fifths() + FIFTHS * semitones, CIRCLE);
    boolean flats = fifths > EVEN || (fifths == EVEN && before.fifths() < 0);
    return new Key(flats ? fifths - CIRCLE : fifths, before.printed());
  }

  /** Returns how many semitones an interval has. */
  public static OptionalInt semitones(String words) {
    Matcher counted = COUNTED.matcher(words.strip());
    if (counted.matches()) {
      int many = Numerals.value(counted.group(1)).orElse(0);
      boolean half = counted.group(2).toLowerCase(Locale.ROOT).matches("semi.*|half.*");
      return many < 1 ? OptionalInt.empty() : OptionalInt.of(half ? many : 2 * many);
    }
    Matcher named = NAMED.matcher(words.strip());
    return named.matches() ? OptionalInt.of(value(named.group(1))) : OptionalInt.empty();
  }

  private static int value(String name) {
    String plain =
        name.toLowerCase(Locale.ROOT)
            .replaceAll("[\\s-]+", " ")
            .replace("2nd", "second")
            .replace("3rd", "third")
            .replaceAll("(\\d)th", "$1");
    return switch (plain) {
      case "semitone", "half step", "half tone", "halftone", "halfstep", "minor second" -> 1;
      case "whole step", "whole tone", "tone", "step", "major second" -> 2;
      case "minor third" -> 3;
      case "major third" -> 4;
      case "fourth", "4", "perfect fourth", "perfect 4" -> 5;
      case "tritone", "augmented fourth", "augmented 4" -> 6;
      case "fifth", "5", "perfect fifth", "perfect 5" -> 7;
      case "minor sixth", "minor 6" -> 8;
      case "major sixth", "major 6" -> 9;
      case "minor seventh", "minor 7" -> 10;
      case "major seventh", "major 7" -> 11;
      default -> 12;
    };
  }

  /** Returns it in words: "up a semitone", "down a minor third". */
  public static String says(int semitones) {
    int size = Math.abs(semitones);
    String way = semitones < 0 ? "down " : "up ";
    Optional<String> name =
        size > 0 && size < NAMES.size() ? Optional.of(NAMES.get(size)) : Optional.empty();
    return way + name.map(n -> (n.startsWith("o") ? "an " : "a ") + n).orElse(size + " semitones");
  }
}
