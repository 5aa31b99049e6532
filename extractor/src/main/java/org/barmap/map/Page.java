package org.barmap.map;

import java.util.List;
import java.util.Optional;

/**
 * One page of the book.
 *
 * @param index 1 for the first page
 * @param source file name the page came from
 * @param width width of the given image in pixels
 * @param height height of the given image in pixels
 * @param systems from top to bottom
 * @param folio the page number printed on it, where one was read
 */
public record Page(
    int index,
    String source,
    int width,
    int height,
    List<StaffSystem> systems,
    Optional<Integer> folio) {

  /** Takes a defensive copy of the systems; an absent list is empty. */
  public Page {
    systems = systems == null ? List.of() : List.copyOf(systems);
    folio = folio == null ? Optional.empty() : folio;
  }

  /** A page on which no page number was read. */
  public Page(int index, String source, int width, int height, List<StaffSystem> systems) {
    this(index, source, width, height, systems, Optional.empty());
  }

  /** Returns the same page at another place of the book. */
  public Page withIndex(int other) {
    return new Page(other, source, width, height, systems, folio);
  }

  /** Returns the same page with this page number. */
  public Page withFolio(Optional<Integer> read) {
    return new Page(index, source, width, height, systems, read);
  }

  /** Returns the same page with other systems. */
  public Page withSystems(List<StaffSystem> others) {
    return new Page(index, source, width, height, others, folio);
  }
}
