package org.barmap.extract;

import java.util.List;
import org.barmap.map.BarMap;
import org.barmap.map.Finding;

/**
 * What came out of reading a book.
 *
 * @param map the bar map with the findings of the reckoning
 * @param findings about files and pages that could not be read or only in part
 */
public record Extraction(BarMap map, List<Finding> findings) {

  /** Takes a defensive copy. */
  public Extraction {
    findings = List.copyOf(findings);
  }
}
