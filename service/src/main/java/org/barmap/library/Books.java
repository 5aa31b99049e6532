package org.barmap.library;

import java.util.List;
import java.util.Optional;
import org.barmap.edit.draft.Draft;

/** The shelf. */
public interface Books {

  /** Returns the books on the shelf, the newest first; those in the bin are not among them. */
  List<BookCard> all();

  /** Puts an empty book on the shelf. */
  BookCard add(String title, String part);

  /** Returns a book on the shelf. */
  Optional<BookCard> find(String book);

  /**
   * Gives a book another title and part.
   *
   * @param revision of the draft the person saw
   */
  Saved<Draft> rename(String book, long revision, String title, String part);

  /** Puts a book into the bin; false when there is no such book on the shelf. */
  boolean discard(String book);

  /** Takes a book out of the bin; false when it is not there. */
  boolean restore(String book);

  /** Returns the books in the bin, the one put there last first. */
  List<BinCard> bin();

  /**
   * Removes a book in the bin with everything kept of it, on disk too; false when it is not there.
   */
  boolean removeForGood(String book);

  /** Returns how a book's player turns and counts; what applies to all when never set. */
  Settings settings(String book);

  /** The same with its revision, which counts up whenever they are set. */
  Versioned<Settings> versionedSettings(String book);

  /**
   * Sets how a book's player turns and counts.
   *
   * @param revision the revision the person saw
   * @return false when someone else was faster, and then nothing was changed
   */
  boolean setSettings(String book, long revision, Settings settings);
}
