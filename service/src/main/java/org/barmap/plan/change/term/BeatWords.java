package org.barmap.plan.change.term;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.map.Meter;

/**
 * Words that say how many beats the director shows in a bar: "in one", "in zwei", "alla breve",
 * "7/8 in 3+2+2" (common practice).
 */
public final class BeatWords {
  private static final List<List<String>> NUMBERS =
      List.of(
          List.of("1", "one", "eins", "uno", "un", "einem"),
          List.of("2", "two", "zwei", "due", "deux"),
          List.of("3", "three", "drei", "tre", "trois"),
          List.of("4", "four", "vier", "quattro", "quatre"),
          List.of("5", "five", "funf", "cinque", "cinq"),
          List.of("6", "six", "sechs", "sei"),
          List.of("7", "seven", "sieben", "sette", "sept"),
          List.of("8", "eight", "acht", "otto", "huit"),
          List.of("9", "nine", "neun", "nove", "neuf"),
          List.of("10", "ten", "zehn"),
          List.of("12", "twelve", "zwolf", "dodici", "douze"));

  private static final String ANY =
      String.join("|", NUMBERS.stream().flatMap(List::stream).toList());

  /** "in 2 bars" and "in one breath" count something else. */
  private static final Pattern IN =
      Pattern.compile(
          "(?<![\\p{L}\\p{N}])(?:in|beaten in|conducted in|a|en|battu a)\\s+("
              + ANY
              + ")(?![\\p{L}\\p{N}+])(?!\\s*(?:bars?|measures?|mesures?|takt\\w*|battut[ae]|breath"
              + "|times?|beats? (?:before|later)|octaves?|voices?|parts?|groups?|st?\\b|rd\\b|th\\b))");

  private static final Pattern OF_BEATS =
      Pattern.compile("\\b(?:a|in)\\s+(" + ANY + ")\\s+(?:temps|battute|schlagen)\\b");
  private static final Pattern GROUPS =
      Pattern.compile("(?<![\\p{N}+/])([2-4](?:\\s?\\+\\s?[2-4]){1,5})(?![\\p{N}+/])");
  private static final Pattern BREVE =
      Pattern.compile("\\b(?:alla breve|cut time|in halben|ganze[nr]? takt)\\b");
  private static final Pattern WHOLE_BARS = Pattern.compile("\\b(?:ganztaktig|in ganzen)\\b");

  private BeatWords() {}

  /** Returns the beats to a bar that words ask for, in the meter they stand in. */
  public static OptionalInt read(String words, Optional<Meter> meter) {
    String said = TempoVocabulary.fold(words);
    Matcher groups = GROUPS.matcher(said);
    if (groups.find() && fits(groups.group(1), meter)) {
      return OptionalInt.of(groups.group(1).split("\\+", -1).length);
    }
    for (Pattern pattern : List.of(OF_BEATS, IN)) {
      Matcher matcher = pattern.matcher(said);
      if (matcher.find() && !foreignArticle(matcher.group())) {
        return figure(matcher.group(1));
      }
    }
    if (WHOLE_BARS.matcher(said).find()) {
      return OptionalInt.of(1);
    }
    boolean halves =
        BREVE.matcher(said).find()
            && meter.filter(m -> m.beats() * 4 / m.unit() == 4 && m.unit() <= 4).isPresent();
    return halves ? OptionalInt.of(2) : OptionalInt.empty();
  }

  /** "a due", "a 2" is for two players together; only with the word for beats is it a beat. */
  private static boolean foreignArticle(String found) {
    return found.matches("(?:a|en)\\s.*") && !found.matches(".*(?:temps|battute|schlagen)");
  }

  /** Groups are of the meter's lower figure and fill its bar; without a meter they are believed. */
  private static boolean fits(String groups, Optional<Meter> meter) {
    int sum = 0;
    for (String one : groups.split("\\+", -1)) {
      sum += Integer.parseInt(one.strip());
    }
    int whole = sum;
    return meter.filter(m -> m.beats() != whole).isEmpty();
  }

  private static OptionalInt figure(String word) {
    for (List<String> names : NUMBERS) {
      if (names.contains(word)) {
        return OptionalInt.of(Integer.parseInt(names.get(0)));
      }
    }
    return OptionalInt.empty();
  }
}
