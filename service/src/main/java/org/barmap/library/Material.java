package org.barmap.library;

import java.util.List;
import java.util.Optional;

/**
 * All that a book's reading is computed from, as it stood at one moment.
 *
 * @param pages in their order
 * @param second the second reading, if there is one
 */
public record Material(List<Kept> pages, Optional<SecondCard> second) {

  /** Takes a defensive copy. */
  public Material {
    pages = List.copyOf(pages);
  }

  /**
   * A page of it.
   *
   * @param page its id
   * @param version of its reading, counted up whenever it is read
   * @param reading as the reader wrote it; empty while it is not read
   */
  public record Kept(String page, long version, Optional<String> reading) {}

  /** A page without what is read on it. */
  private record Named(String page, long version) {}

  /** Tells whether a reading computed from the one holds for the other as well. */
  public boolean isSameAs(Material other) {
    return named(pages).equals(named(other.pages)) && second.equals(other.second);
  }

  private static List<Named> named(List<Kept> pages) {
    return pages.stream().map(p -> new Named(p.page, p.version)).toList();
  }
}
