package org.barmap.map;

import java.util.List;

/**
 * One page of the book.
 *
 * @param index 1 for the first page
 * @param source file name the page came from
 * @param width width of the given image in pixels
 * @param height height of the given image in pixels
 * @param systems from top to bottom
 */
public record Page(int index, String source, int width, int height, List<StaffSystem> systems) {

  /** Takes a defensive copy of the systems; an absent list is empty. */
  public Page {
    systems = systems == null ? List.of() : List.copyOf(systems);
  }
}
