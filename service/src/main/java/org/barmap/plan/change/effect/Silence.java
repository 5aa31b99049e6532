package org.barmap.plan.change.effect;

/** Why a number isn't played; a cut counts before a tacet. */
public enum Silence {
  /** The number is not in the show. */
  CUT,
  /** The number is in the show, the player doesn't play in it. */
  TACET
}
