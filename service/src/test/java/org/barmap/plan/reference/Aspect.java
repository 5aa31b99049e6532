package org.barmap.plan.reference;

/**
 * What is in force at a sounding bar. Values are text: "?" for unknown; a set of values means that
 * the trade's rules allow each of them, "*" that they allow anything.
 */
public enum Aspect {
  /** "6/8". */
  METER,
  /** Sharps counted up, flats down: "-2". */
  KEY,
  /** Quarter notes a minute, "132" or "67.5". */
  TEMPO,
  /** Beats the director shows in a bar, "2". */
  BEATS,
  /** "electric bass"; abbreviations written out, lower case. */
  INSTRUMENT,
  /** "arco" or "pizz.". */
  BOW,
  /** "on" or "off". */
  MUTE,
  /** Whether the player plays in this pass, "yes" or "no"; "*" where no words say so. */
  PLAYS;

  /** Not known. */
  public static final String UNKNOWN = "?";

  /** Nothing says what it must be. */
  public static final String ANY = "*";

  /** Writes a figure as these values do: no needless decimals. */
  public static String figure(double value) {
    double rounded = Math.round(value * 100) / 100.0;
    return rounded == Math.rint(rounded)
        ? Long.toString(Math.round(rounded))
        : Double.toString(rounded);
  }
}
