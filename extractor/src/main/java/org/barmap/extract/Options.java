package org.barmap.extract;

import org.barmap.map.Book;

/**
 * What is known about a book before it is read.
 *
 * @param title of the show, may be empty
 * @param part which chair's part it is, may be empty
 */
public record Options(String title, String part) {

  /** A book nothing is known about. */
  public static final Options NONE = new Options("", "");

  Book book() {
    return new Book(title, part);
  }
}
