package org.barmap.plan.ready;

import java.util.Optional;
import java.util.regex.Pattern;
import org.barmap.plan.change.term.InstrumentNames;

/** Recognises words that put an instrument, a bow or a mute into the player's hands. */
final class Instruments {
  private static final int FLAGS = Pattern.CASE_INSENSITIVE | Pattern.UNICODE_CASE;
  private static final Pattern ARCO = Pattern.compile("\\b(?:arco|bowed)\\b", FLAGS);
  private static final Pattern PIZZ = Pattern.compile("\\bpizz(?:icato)?\\b", FLAGS);
  private static final Pattern MUTE_ON =
      Pattern.compile(
          "\\b(?:con sord(?:ino|ini)?|with (?:\\w+ )?mute|mute on|(?:straight|cup|harmon) mute)\\b",
          FLAGS);
  private static final Pattern MUTE_OFF =
      Pattern.compile("\\b(?:senza sord(?:ino|ini)?|without mute|mute off)\\b", FLAGS);

  private Instruments() {}

  /** Returns what the player holds after words. */
  static Hands after(Hands before, String words) {
    Hands now = before;
    Optional<String> instrument = InstrumentNames.read(words);
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
