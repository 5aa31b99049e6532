package org.barmap.plan.cases;

import java.util.List;
import org.barmap.map.BarMap;

/**
 * A made book of the trade's cases.
 *
 * @param map its bars; a valid bar map
 * @param pages what else is known of each page, in the order of the book
 */
public record CaseBook(BarMap map, List<PageFacts> pages) {

  /** Takes a defensive copy. */
  public CaseBook {
    pages = List.copyOf(pages);
  }
}
