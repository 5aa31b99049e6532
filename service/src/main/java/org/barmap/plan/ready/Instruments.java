package org.barmap.plan.ready;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Recognises words that put an instrument, a bow or a mute into the player's hands. */
final class Instruments {
  private static final int FLAGS = Pattern.CASE_INSENSITIVE | Pattern.UNICODE_CASE;
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
  private static final Pattern INSTRUMENT =
      Pattern.compile(
          "[(\\[]?\\s*(?:(?:to|take|change to|switch to|muta in)\\s+(?:the\\s+)?)?("
              + String.join("|", NAMES)
              + ")\\s*[.)\\]:]*",
          FLAGS);
  private static final Pattern ARCO = Pattern.compile("\\b(?:arco|bowed)\\b", FLAGS);
  private static final Pattern PIZZ = Pattern.compile("\\bpizz(?:icato)?\\b", FLAGS);
  private static final Pattern MUTE_ON =
      Pattern.compile(
          "\\b(?:con sord(?:ino|ini)?|with (?:\\w+ )?mute|mute on|(?:straight|cup|harmon) mute)\\b",
          FLAGS);
  private static final Pattern MUTE_OFF =
      Pattern.compile("\\b(?:senza sord(?:ino|ini)?|without mute|mute off)\\b", FLAGS);

  private Instruments() {}

  /** Returns the instrument words call for, in lower case. */
  static Optional<String> instrument(String words) {
    Matcher matcher = INSTRUMENT.matcher(words.strip());
    return matcher.matches()
        ? Optional.of(matcher.group(1).toLowerCase(Locale.ROOT).strip())
        : Optional.empty();
  }

  /** Returns what the player holds after words. */
  static Hands after(Hands before, String words) {
    Hands now = before;
    Optional<String> instrument = instrument(words);
    if (instrument.isPresent()) {
      now = now.withInstrument(instrument.get());
    }
    if (ARCO.matcher(words).find()) {
      now = now.withBow("arco");
    } else if (PIZZ.matcher(words).find()) {
      now = now.withBow("pizz");
    }
    if (MUTE_ON.matcher(words).find()) {
      now = now.withMute("mute on");
    } else if (MUTE_OFF.matcher(words).find()) {
      now = now.withMute("mute off");
    }
    return now;
  }
}
