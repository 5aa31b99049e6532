package org.barmap.exchange.musicxml.book;

import java.util.Map;
import org.barmap.map.BarMap;

/**
 * A book made from a part of a score.
 *
 * @param map its bar map, with what could not be taken over as findings
 * @param quarters how long each entry lasts by what is in it, in quarters, by bar id
 */
public record ImportedBook(BarMap map, Map<String, Double> quarters) {

  /** Takes a defensive copy. */
  public ImportedBook {
    quarters = Map.copyOf(quarters);
  }
}
