package org.barmap.library.feed;

import java.util.List;
import java.util.Optional;

/**
 * Editions of books: the step that checks a book's last page makes one, and a person can make one
 * of a checked book that was corrected since. A book in the bin has none.
 */
public interface Editions {

  /** So many of a book are told; older ones can still be asked for by their number. */
  int MOST_LISTED = 500;

  /** Returns a book's editions, the newest first. */
  List<Edition> all(String book);

  /** Returns an edition. */
  Optional<Edition> find(String book, int number);

  /** Returns the newest edition. */
  Optional<Edition> latest(String book);

  /** Returns the document of an edition, {@code barmap/1} as JSON in UTF-8, packed by gzip. */
  Optional<byte[]> packed(String book, int number);

  /**
   * Returns how many corrections were made, or taken back, since the newest edition; empty where
   * there is none.
   */
  Optional<Integer> correctionsSince(String book);

  /**
   * Makes an edition of a checked book.
   *
   * @param revision the revision the person saw
   * @param who who makes it; may be empty
   */
  Making make(String book, long revision, String who);

  /** Puts an edition in with the number it has, as it came in a packed book. */
  void take(String book, Edition edition, String document);

  /** What came of making an edition. */
  sealed interface Making {

    /**
     * It is there.
     *
     * @param fresh false when nothing was different, and it is the one that was there
     */
    record Made(Edition edition, boolean fresh) implements Making {}

    /** Someone else was faster: nothing was made. */
    record Stale(long current) implements Making {}

    /** The book is not checked; one plain sentence. */
    record Refused(String reason) implements Making {}
  }
}
