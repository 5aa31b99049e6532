package org.barmap.library;

import java.util.List;

/**
 * A second reading of a book's music: a score in a file beside the pages.
 *
 * @param name what the player calls the file
 * @param file its name in the book's folder
 * @param part id of the part that is this chair's; empty until one is chosen
 * @param parts in the order of the score
 */
public record SecondCard(String name, String file, String part, List<PartCard> parts) {

  /** Takes a defensive copy. */
  public SecondCard {
    parts = List.copyOf(parts);
  }

  /**
   * One part of the score.
   *
   * @param id unique in it
   * @param name as printed; may be empty
   * @param bars how many it has
   */
  public record PartCard(String id, String name, int bars) {}

  /** Returns the same with another part chosen. */
  public SecondCard withPart(String chosen) {
    return new SecondCard(name, file, chosen, parts);
  }
}
