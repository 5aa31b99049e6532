package org.barmap.plan.ready;

import com.fasterxml.jackson.annotation.JsonInclude;
import org.barmap.plan.change.effect.Grip;
import org.barmap.plan.change.effect.InForce;
import org.barmap.plan.change.term.InstrumentNames;

/**
 * What the player holds at a bar.
 *
 * @param instrument empty where unknown
 * @param bow "arco", "pizz" or "col legno", empty where unknown
 * @param mute "mute on", "mute off" or the mute by its name, empty where unknown
 * @param extension "extension" from a reminder on, else empty
 * @param tuning what a string is tuned to, "standard tuning" after that; empty where nothing is
 *     said
 */
@JsonInclude(JsonInclude.Include.NON_EMPTY)
public record Hands(String instrument, String bow, String mute, String extension, String tuning) {

  static final Hands EMPTY = new Hands("", "", "", "", "");

  /** Tells whether anything is known. */
  public boolean known() {
    return !equals(EMPTY);
  }

  /** Returns what is held after a change. */
  Hands after(InForce set) {
    Hands now = set.instrument().map(i -> withInstrument(InstrumentNames.full(i))).orElse(this);
    return set.grip().map(now::gripped).orElse(now);
  }

  private Hands gripped(Grip grip) {
    return switch (grip) {
      case ARCO -> withBow("arco");
      case PIZZ -> withBow("pizz");
      case MUTE_ON -> withMute("mute on");
      case MUTE_OFF -> withMute("mute off");
      case EXTENSION -> withExtension("extension");
    };
  }

  Hands withInstrument(String now) {
    return new Hands(now, bow, mute, extension, tuning);
  }

  Hands withBow(String now) {
    return new Hands(instrument, now, mute, extension, tuning);
  }

  Hands withMute(String now) {
    return new Hands(instrument, bow, now, extension, tuning);
  }

  Hands withExtension(String now) {
    return new Hands(instrument, bow, mute, now, tuning);
  }

  Hands withTuning(String now) {
    return new Hands(instrument, bow, mute, extension, now);
  }
}
