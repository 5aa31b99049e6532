package org.barmap.sign.kind;

/** How a raw sign was found; what the network didn't see must say more to be believed. */
public enum Origin {
  /** The network saw it. */
  NETWORK,
  /** A closed frame over the staff, found by its ink. */
  FRAME,
  /** Figures that stand alone over a line's beginning, found by their ink. */
  FIGURES,
  /** Other ink: a line of text, a word of it, a block among cues. */
  INK
}
