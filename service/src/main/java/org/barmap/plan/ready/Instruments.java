package org.barmap.plan.ready;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.plan.change.term.InstrumentCall;
import org.barmap.plan.change.term.InstrumentNames;

/** Recognises words that put an instrument, a bow, a mute or a tuning into the player's hands. */
final class Instruments {
  private static final Pattern ARCO = phrase("\\b(?:arco|bowed)\\b");
  private static final Pattern PIZZ = phrase("\\bpizz(?:icato)?\\b");
  private static final Pattern WOOD = phrase("\\bcol legno\\b");
  private static final Pattern MUTE_ON =
      phrase("\\b(?:con sord(?:ino|ini)?|with (?:\\w+ )?mute|mute on|muted|add mute)\\b");
  private static final Pattern MUTE_OFF =
      phrase(
          "\\b(?:senza sord(?:ino|ini)?|via sord(?:ino|ini)?|without mute|no mute|mute off|mute out|remove mute)\\b");
  private static final Pattern MUTE_NAMED =
      phrase(
          "\\b(straight|st|cup|harmon|plunger|bucket|practice|hat|whisper|solotone)\\b\\.?(?:\\s+mute)?");
  private static final Pattern MUTE_WORD = phrase("\\bmute\\b|\\bsord\\b");
  private static final Pattern OPEN = phrase("[(\\[]?\\s*open\\s*[)\\]]?\\.?");
  private static final Pattern RETUNE =
      phrase(
          "\\b(?:(?:re|de)?tune|tuning|drop|scord(?:atura)?|tuned)\\b\\.?\\s*(.*)"
              + "|\\b(?:low\\s+)?([A-G][b#\\u266D\\u266F]?)\\s+string\\s+(?:down\\s+)?to\\s+([A-G][b#\\u266D\\u266F]?)\\b");
  private static final Pattern STANDARD =
      phrase(
          "\\b(?:standard|normal|regular|ordinary)\\s+tuning\\b|\\btune\\s+(?:back|up)\\b|\\bback\\s+to\\s+E\\b");
  private static final Pattern EXTENSION = phrase("\\b(?:(?:C|low)[\\s-]+)?ext(?:ension|\\.)");
  private static final Pattern NO_EXTENSION =
      phrase("\\b(?:no|close|shut|without)\\s+(?:the\\s+)?ext(?:ension|\\.)");

  private Instruments() {}

  /**
   * Returns what the player holds after words.
   *
   * @param home the chair whose book it is; empty where unknown
   */
  static Hands after(Hands before, String words, String home) {
    Optional<InstrumentCall> call = InstrumentCall.read(words, before.instrument(), home);
    Hands now = call.map(c -> taken(before, c)).orElse(before);
    if (WOOD.matcher(words).find()) {
      now = now.withBow("col legno");
    } else if (ARCO.matcher(words).find()) {
      now = now.withBow("arco");
    } else if (PIZZ.matcher(words).find()) {
      now = now.withBow("pizz");
    }
    return tuned(muted(now, words), words);
  }

  /** Where the print leaves it open, what is in hand stays, else the first is taken. */
  private static Hands taken(Hands before, InstrumentCall call) {
    return call.names().contains(before.instrument())
        ? before
        : before.withInstrument(call.names().get(0));
  }

  private static Hands muted(Hands now, String words) {
    Matcher named = MUTE_NAMED.matcher(words);
    if (MUTE_OFF.matcher(words).find()) {
      return now.withMute("mute off");
    }
    boolean brass = InstrumentNames.chair(now.instrument()).filter("brass"::equals).isPresent();
    if (named.find() && (MUTE_WORD.matcher(words).find() || (brass && named.matches()))) {
      return now.withMute(full(named.group(1)) + " mute");
    }
    if (MUTE_ON.matcher(words).find()) {
      return now.withMute("mute on");
    }
    boolean on = !now.mute().isEmpty() && !now.mute().equals("mute off");
    return on && OPEN.matcher(words.strip()).matches() ? now.withMute("mute off") : now;
  }

  private static String full(String mute) {
    String said = mute.toLowerCase(Locale.ROOT);
    return said.equals("st") ? "straight" : said;
  }

  private static Hands tuned(Hands before, String words) {
    Hands now = before;
    if (NO_EXTENSION.matcher(words).find()) {
      now = now.withExtension("no extension");
    } else if (EXTENSION.matcher(words).find()) {
      now = now.withExtension("extension");
    }
    if (STANDARD.matcher(words).find()) {
      return now.tuning().isEmpty() ? now : now.withTuning("standard tuning");
    }
    return RETUNE.matcher(words).find()
        ? now.withTuning(words.strip().replaceAll("\\s+", " "))
        : now;
  }
}
