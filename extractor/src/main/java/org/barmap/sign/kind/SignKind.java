package org.barmap.sign.kind;

import java.util.Locale;

/** The kinds of signs a bar map is made from. */
public enum SignKind {
  /** A barline of any type; a double or repeat barline is one. */
  BARLINE,
  /** The thick bar of a multi-bar rest. */
  MULTI_REST,
  /** An old block rest: long, square and whole rests standing for several bars. */
  BLOCK_REST,
  /** A whole-bar rest. */
  REST,
  /** The sign for playing the bar before again. */
  BAR_REPEAT,
  /** The sign for playing the two bars before again. */
  BAR_REPEAT_2,
  /** The numeral of a multi-bar rest. */
  COUNT,
  /** A time signature. */
  METER,
  /** A rehearsal letter or number. */
  REHEARSAL,
  /** A printed bar number. */
  BAR_NUMBER,
  /** The bracket of a first, second … ending. */
  ENDING,
  /** The segno. */
  SEGNO,
  /** The coda sign. */
  CODA,
  /** A fermata. */
  FERMATA,
  /** A caesura. */
  CAESURA,
  /** Any other words. */
  WORD,
  /** The heading of a musical number. */
  HEADING,
  /** A key signature, its sharps, flats or naturals together. */
  KEY,
  /** One slash of a bar that is left to the player, with a stem or without. */
  SLASH,
  /** A chord symbol, "N.C." among them. */
  CHORD,
  /** What is sung to a note. */
  LYRIC,
  /** A dynamic in letters, from "ppp" to "sfz". */
  DYNAMIC,
  /** A figure that counts bars of slashes or of bar-repeat signs: no number of a bar. */
  COUNTER;

  /** Returns the word used in model files and made pages, for instance {@code multi-rest}. */
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }
}
