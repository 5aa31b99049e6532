package org.barmap.sign;

import java.util.List;
import java.util.Optional;
import org.barmap.map.Page.HandMark;
import org.barmap.sign.kind.Folio;

/**
 * One page with everything read on it.
 *
 * @param index 1 for the first page of the book
 * @param source file name
 * @param width of the given image, pixels
 * @param height of the given image, pixels
 * @param systems from top to bottom
 * @param folio the page's own number, where one was seen; not yet believed
 * @param byHand what players wrote on it
 */
public record ReadPage(
    int index,
    String source,
    int width,
    int height,
    List<ReadSystem> systems,
    Optional<Folio> folio,
    List<HandMark> byHand) {

  /** Takes a defensive copy. */
  public ReadPage {
    systems = List.copyOf(systems);
    byHand = List.copyOf(byHand);
  }

  /** A page on which no page number and nothing written by hand was seen. */
  public ReadPage(int index, String source, int width, int height, List<ReadSystem> systems) {
    this(index, source, width, height, systems, Optional.empty(), List.of());
  }
}
