package org.barmap.plan.ready;

import java.util.Locale;
import org.barmap.plan.change.effect.Grip;
import org.barmap.plan.change.effect.InForce;

/**
 * What the player holds at a bar.
 *
 * @param instrument empty where unknown
 * @param bow "arco" or "pizz", empty where unknown
 * @param mute "mute on" or "mute off", empty where unknown
 * @param extension "extension" from a reminder on, else empty
 */
record Hands(String instrument, String bow, String mute, String extension) {

  static final Hands EMPTY = new Hands("", "", "", "");

  /** Returns what is held after a change. */
  Hands after(InForce set) {
    Hands now = set.instrument().map(i -> withInstrument(i.toLowerCase(Locale.ROOT))).orElse(this);
    return set.grip().map(now::gripped).orElse(now);
  }

  private Hands gripped(Grip grip) {
    return switch (grip) {
      case ARCO -> withBow("arco");
      case PIZZ -> withBow("pizz");
      case MUTE_ON -> withMute("mute on");
      case MUTE_OFF -> withMute("mute off");
      case EXTENSION -> new Hands(instrument, bow, mute, "extension");
    };
  }

  Hands withInstrument(String now) {
    return new Hands(now, bow, mute, extension);
  }

  Hands withBow(String now) {
    return new Hands(instrument, now, mute, extension);
  }

  Hands withMute(String now) {
    return new Hands(instrument, bow, now, extension);
  }
}
