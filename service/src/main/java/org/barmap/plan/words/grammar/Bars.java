package org.barmap.plan.words.grammar;

import java.util.Optional;
import java.util.OptionalInt;

/** The bars of the number that is spoken of. */
public interface Bars {

  /**
   * The ends of a stretch.
   *
   * @param first address of its first bar
   * @param last address of its last bar
   * @param begins it begins with the number
   * @param ends it ends with the number
   */
  record Ends(String first, String last, boolean begins, boolean ends) {}

  /** Returns the ends of the bars that words name; empty where they name none, or several. */
  Optional<Ends> ends(String said);

  /** Whether words name bars, one stretch or one of several. */
  boolean named(String said);

  /** Returns the bars of the only printed "vamp" or "safety", as "5 to 6". */
  Optional<String> open(String word);

  /** Whether words name this player's instrument, or may name it. */
  boolean chair(String instrument);

  /** Returns where a bar stands among the bars of the number; empty where words name none. */
  OptionalInt slot(String bar);

  /** Whether a D.C. or a D.S. is printed in the number. */
  boolean jumpsBack();

  /** Returns how often bars are played as printed. */
  int times(String said);

  /** Returns the bars of the only printed repeat, as "5 to 8"; empty where there are several. */
  Optional<String> repeat();

  /**
   * Returns the interval to a key by its name, as "down a whole tone".
   *
   * @param key "B flat", "E minor"
   * @param way up where above 0, down where below; else the nearer one
   */
  Optional<String> toKey(String key, int way);

  /** Returns the bars of the printed rest that a bar lies in. */
  Optional<Ends> rest(String said);

  /** Returns the tempo printed at a bar or before it, as "quarter = 120". */
  Optional<String> tempo(String bar);

  /** Returns how many bars a stretch has. */
  int length(Ends ends);

  /**
   * Returns a bar at what is printed once in the number: "double bar", "key change", "vamp".
   *
   * @param behind the last bar of it, or the bar it stands behind; else the first one
   */
  Optional<String> landmark(String printed, boolean behind);
}
