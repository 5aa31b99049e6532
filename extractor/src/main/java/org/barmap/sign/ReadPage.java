package org.barmap.sign;

import java.util.List;

/**
 * One page with everything read on it.
 *
 * @param index 1 for the first page of the book
 * @param source file name
 * @param width of the given image, pixels
 * @param height of the given image, pixels
 * @param systems from top to bottom
 */
public record ReadPage(int index, String source, int width, int height, List<ReadSystem> systems) {

  /** Takes a defensive copy. */
  public ReadPage {
    systems = List.copyOf(systems);
  }
}
