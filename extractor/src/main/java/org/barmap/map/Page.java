package org.barmap.map;

import com.fasterxml.jackson.annotation.JsonInclude;
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
 * @param byHand what players wrote on it, apart from the print
 */
public record Page(
    int index,
    String source,
    int width,
    int height,
    List<StaffSystem> systems,
    Optional<Integer> folio,
    @JsonInclude(JsonInclude.Include.NON_EMPTY) List<HandMark> byHand) {

  /**
   * Something written by hand on the print: a loop, spectacles, a word, a slash.
   *
   * @param outline around it, pixels of the given image
   * @param kind what was drawn, where that is known
   * @param text what it says, where words were read in it
   * @param confidence how surely it is by hand, 0 to 1; none where that is known
   */
  public record HandMark(
      Outline outline, Optional<String> kind, Optional<String> text, Optional<Double> confidence) {

    /** What is absent is empty. */
    public HandMark {
      kind = kind == null ? Optional.empty() : kind;
      confidence = confidence == null ? Optional.empty() : confidence;
      text = text == null ? Optional.empty() : text;
    }
  }

  /** Takes defensive copies of the lists; an absent list is empty. */
  public Page {
    systems = systems == null ? List.of() : List.copyOf(systems);
    folio = folio == null ? Optional.empty() : folio;
    byHand = byHand == null ? List.of() : List.copyOf(byHand);
  }

  /** A page on which nothing was written by hand. */
  public Page(
      int index,
      String source,
      int width,
      int height,
      List<StaffSystem> systems,
      Optional<Integer> folio) {
    this(index, source, width, height, systems, folio, List.of());
  }

  /** A page on which no page number was read. */
  public Page(int index, String source, int width, int height, List<StaffSystem> systems) {
    this(index, source, width, height, systems, Optional.empty());
  }

  /** Returns the same page at another place of the book. */
  public Page withIndex(int other) {
    return new Page(other, source, width, height, systems, folio, byHand);
  }

  /** Returns the same page with this page number. */
  public Page withFolio(Optional<Integer> read) {
    return new Page(index, source, width, height, systems, read, byHand);
  }

  /** Returns the same page with other marks by hand. */
  public Page withByHand(List<HandMark> others) {
    return new Page(index, source, width, height, systems, folio, others);
  }

  /** Returns the same page with other systems. */
  public Page withSystems(List<StaffSystem> others) {
    return new Page(index, source, width, height, others, folio, byHand);
  }
}
