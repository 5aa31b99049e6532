package org.barmap.library;

import org.barmap.library.feed.Feed;
import org.barmap.library.keep.Keeping;
import org.barmap.library.live.Signals;
import org.barmap.library.turn.Turns;

/** Everything barmap keeps: books with their pages, drafts, changes and jobs. */
public interface Library extends AutoCloseable {

  /** Returns the shelf of books. */
  Books books();

  /** Returns the pages of books and their pictures. */
  Pages pages();

  /** Returns the maps of books, with history. */
  Drafts drafts();

  /** Returns the door for new readings of whole books. */
  Readings readings();

  /** Returns the show changes of books, with history. */
  Changes changes();

  /** Returns the reading jobs. */
  Jobs jobs();

  /** Returns the row in which books with open jobs are gone on with. */
  Turns turns();

  /** Returns the second readings of books. */
  Seconds seconds();

  /** Returns what edits with keys were answered. */
  Replies replies();

  /** Returns what other programs follow books by. */
  Feed feed();

  /**
   * How the connections to the store are used.
   *
   * @param busy in use
   * @param idle open and free
   * @param wanted how many threads wait for one
   * @param most how many there may be
   */
  record Connections(int busy, int idle, int wanted, int most) {}

  /** Returns how the connections to the store are used at this moment. */
  Connections connections();

  /** Returns the line to other processes that have the same store open. */
  default Signals signals() {
    return Signals.ALONE;
  }

  /** Returns the care of the folder as a whole. */
  Keeping keeping();

  /**
   * Removes for good the books whose time in the bin is over, where a person set one, and what was
   * let go and could not be deleted then. Opening does it too; call it as often as you like, it
   * does something once a day.
   */
  void sweepDaily();

  /** Deletes what was let go, also what was written for a book after it was removed. */
  void sweep();

  /** The same, also what another process wrote for a book; nothing of a book that is there. */
  void sweep(String book);

  /** Closes the store; nothing else may be called afterwards. */
  @Override
  void close();
}
