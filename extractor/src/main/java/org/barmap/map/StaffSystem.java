package org.barmap.map;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import java.util.Optional;

/**
 * One line of music across a page.
 *
 * @param index 1 for the uppermost system of the page
 * @param outline outermost staff line to outermost staff line, left end to right end; pixels
 * @param staffSpace distance of two neighbouring staff lines in pixels
 * @param printedBarNumber the bar number printed at its start, as read
 * @param confidence 0 to 1, calibrated
 * @param midline points along the middle line of its first staff, left to right; may be empty
 */
public record StaffSystem(
    int index,
    Outline outline,
    double staffSpace,
    Optional<Integer> printedBarNumber,
    double confidence,
    @JsonInclude(JsonInclude.Include.NON_EMPTY) List<Point> midline) {

  /** Takes a defensive copy of the midline; an absent one is empty. */
  public StaffSystem {
    midline = midline == null ? List.of() : List.copyOf(midline);
    printedBarNumber = printedBarNumber == null ? Optional.empty() : printedBarNumber;
  }
}
