package org.barmap.plan.mark;

import java.util.List;

/**
 * What is held at each piece of a number, in reading order; empty text where nobody knows.
 *
 * @param instruments names in lower case
 * @param bows "arco" or "pizz"
 * @param mutes "mute on" or "mute off"
 */
public record Held(List<String> instruments, List<String> bows, List<String> mutes) {

  /** Takes defensive copies. */
  public Held {
    instruments = List.copyOf(instruments);
    bows = List.copyOf(bows);
    mutes = List.copyOf(mutes);
  }
}
