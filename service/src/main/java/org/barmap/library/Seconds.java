package org.barmap.library;

import java.util.Optional;

/**
 * Second readings; a book has one at most. Their files lie in the book's folder. They come and go
 * through {@link Readings}.
 */
public interface Seconds {

  /** Returns a book's second reading. */
  Optional<SecondCard> find(String book);
}
