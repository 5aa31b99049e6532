package org.barmap.plan.change.effect;

/** How an instrument is held and played. */
public enum Grip {
  /** Bowed. */
  ARCO,
  /** Plucked. */
  PIZZ,
  /** With the mute. */
  MUTE_ON,
  /** Without it. */
  MUTE_OFF,
  /** With the low extension. */
  EXTENSION
}
