package org.barmap.exchange.musicxml.book;

import java.util.List;
import org.barmap.map.BarMap;

/**
 * A book made from a part of a score.
 *
 * @param map its bar map, with what could not be taken over as findings
 * @param made what each bar entry of it was made of, in their order
 */
public record ImportedBook(BarMap map, List<Source> made) {

  /** Takes a defensive copy. */
  public ImportedBook {
    made = List.copyOf(made);
  }

  /**
   * What an entry was made of.
   *
   * @param first index of its first measure in the part, from 0; a measure with a repeat in its
   *     middle counts as two
   * @param measures how many measures it takes
   * @param quarters how long they last by what is in them
   */
  public record Source(int first, int measures, double quarters) {}
}
