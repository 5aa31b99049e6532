package org.barmap.library;

import java.util.Optional;

/** Second readings; a book has one at most. Their files lie in the book's folder. */
public interface Seconds {

  /** Returns a book's second reading. */
  Optional<SecondCard> find(String book);

  /** Gives a book a second reading instead of the one it had. */
  void set(String book, SecondCard card);

  /** Takes a book's second reading away. */
  void remove(String book);
}
