package org.barmap.plan.ready;

import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.plan.change.term.InstrumentCall;
import org.barmap.plan.change.term.InstrumentNames;

/** Recognises words that put an instrument, a bow, a mute or a tuning into the player's hands. */
final class Instruments {
  private static final int FLAGS = Pattern.CASE_INSENSITIVE | Pattern.UNICODE_CASE;
  private static final Pattern ARCO = Pattern.compile("\\b(?:arco|bowed)\\b", FLAGS);
  private static final Pattern PIZZ = Pattern.compile("\\bpizz(?:icato)?\\b", FLAGS);
  private static final Pattern WOOD = Pattern.compile("\\bcol legno\\b", FLAGS);
  private static final Pattern MUTE_ON =
      Pattern.compile(
          "\\b(?:con sord(?:ino|ini)?|with (?:\\w+ )?mute|mute on|muted|add mute)\\b", FLAGS);
  private static final Pattern MUTE_OFF =
      Pattern.compile(
          "\\b(?:senza sord(?:ino|ini)?|via sord(?:ino|ini)?|without mute|no mute|mute off|mute out|remove mute)\\b",
          FLAGS);
  private static final Pattern MUTE_NAMED =
      Pattern.compile(
          "\\b(straight|st|cup|harmon|plunger|bucket|practice|hat|whisper|solotone)\\b\\.?(?:\\s+mute)?",
          FLAGS);
  private static final Pattern MUTE_WORD = Pattern.compile("\\bmute\\b|\\bsord\\b", FLAGS);
  private static final Pattern OPEN = Pattern.compile("[(\\[]?\\s*open\\s*[)\\]]?\\.?", FLAGS);
  private static final Pattern RETUNE =
      Pattern.compile(
          "\\b(?:(?:re|de)?tune|tuning|drop|scord(?:atura)?|tuned)\\b\\.?\\s*(.*)"
              + "|\\b(?:low\\s+)?([A-G][b#\\u266D\\u266F]?)\\s+string\\s+(?:down\\s+)?to\\s+([A-G][b#\\u266D\\u266F]?)\\b",
          FLAGS);
  private static final Pattern STANDARD =
      Pattern.compile(
          "\\b(?:standard|normal|regular|ordinary)\\s+tuning\\b|\\btune\\s+(?:back|up)\\b|\\bback\\s+to\\s+E\\b",
          FLAGS);
  private static final Pattern EXTENSION =
      Pattern.compile("\\b(?:(?:C|low)[\\s-]+)?ext(?:ension|\\.)", FLAGS);
  private static final Pattern NO_EXTENSION =
      Pattern.compile("\\b(?:no|close|shut|without)\\s+(?:the\\s+)?ext(?:ension|\\.)", FLAGS);

  private Instruments() {}

  /** Returns what the player holds after words. */
  static Hands after(Hands before, String words) {
    Optional<InstrumentCall> call = InstrumentCall.read(words, before.instrument());
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
