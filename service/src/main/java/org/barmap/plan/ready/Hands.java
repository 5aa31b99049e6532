package org.barmap.plan.ready;

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

  Hands withInstrument(String now) {
    return new Hands(now, bow, mute, extension);
  }

  Hands withBow(String now) {
    return new Hands(instrument, now, mute, extension);
  }

  Hands withMute(String now) {
    return new Hands(instrument, bow, now, extension);
  }

  Hands withExtension(String now) {
    return new Hands(instrument, bow, mute, now);
  }
}
