package org.barmap.plan.words.grammar;

import java.util.Optional;

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
}
