package org.barmap.library;

import java.util.List;
import java.util.Optional;

/** The shelf. */
public interface Books {

  /** Returns the books on the shelf, the newest first; those in the bin are not among them. */
  List<BookCard> all();

  /** Puts an empty book on the shelf. */
  BookCard add(String title, String part);

  /** Returns a book on the shelf. */
  Optional<BookCard> find(String book);

  /** Gives a book another title and part; false when there is no such book. */
  boolean rename(String book, String title, String part);

  /** Puts a book into the bin; false when there is no such book on the shelf. */
  boolean discard(String book);

  /** Takes a book out of the bin; false when it is not there. */
  boolean restore(String book);

  /** Returns how a book's player turns and counts; what applies to all when never set. */
  Settings settings(String book);

  /** Sets how a book's player turns and counts. */
  void setSettings(String book, Settings settings);
}
