package org.barmap.plan.change.term;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Recognises the names of instruments a pit chair doubles on. */
public final class InstrumentNames {
  private static final List<String> NAMES =
      List.of(
          "(?:double|upright|string|acoustic|electric|fretless|5-string|e\\.?|elec\\.?|el\\.?) bass",
          "bass guitar",
          "(?:alto |bass )?flute",
          "piccolo",
          "oboe(?: d'amore)?",
          "english horn",
          "cor anglais",
          "(?:bass |alto |a |b[b\\u266D] |e[b\\u266D] )?clarinet",
          "(?:soprano |alto |tenor |baritone |bari )?sax(?:ophone)?",
          "(?:contra)?bassoon",
          "(?:soprano |alto |tenor |bass )?recorder",
          "(?:penny|tin) whistle",
          "(?:piccolo )?trumpet",
          "flugelhorn",
          "cornet",
          "(?:french )?horn",
          "(?:bass )?trombone",
          "euphonium",
          "tuba",
          "(?:acoustic |electric |steel |nylon |classical |12-string )*guitar",
          "banjo",
          "mandolin",
          "ukulele",
          "violin",
          "viola",
          "cello",
          "piano",
          "organ",
          "synth(?:esi[sz]er)?",
          "celest[ae]",
          "accordion",
          "harp",
          "timpani",
          "glockenspiel",
          "xylophone",
          "vibraphone",
          "marimba",
          "drum(?:s| set| kit)");
  private static final Pattern CALL =
      Pattern.compile(
          "[(\\[]?\\s*(?:(?:to|take|take up|change to|switch to|muta in)\\s+(?:the\\s+)?)?("
              + String.join("|", NAMES)
              + ")\\s*[.)\\]:]*",
          Pattern.CASE_INSENSITIVE | Pattern.UNICODE_CASE);

  private InstrumentNames() {}

  /** Returns the instrument that words call for and nothing else, in lower case. */
  public static Optional<String> read(String words) {
    Matcher matcher = CALL.matcher(words.strip());
    return matcher.matches()
        ? Optional.of(matcher.group(1).toLowerCase(Locale.ROOT).strip())
        : Optional.empty();
  }
}
