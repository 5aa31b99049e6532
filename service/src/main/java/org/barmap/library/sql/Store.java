package org.barmap.library.sql;

import java.time.Clock;
import javax.sql.DataSource;
import org.barmap.library.keep.Kept;
import org.barmap.library.sql.turn.Pace;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.HandleCallback;
import org.jdbi.v3.core.Jdbi;

/**
 * What differs from one database to the next; the statements themselves are the same for all of
 * them.
 */
public interface Store {

  /** Returns the way to the database, told of our records. */
  Jdbi jdbi();

  /** Returns its connections. */
  DataSource source();

  /** Returns how the row of books is looked at in it. */
  Pace pace();

  /**
   * Looks at several things of one moment; nothing is changed.
   *
   * @param <T> what is seen
   * @param work what looks
   */
  <T> T view(HandleCallback<T, RuntimeException> work);

  /**
   * Changes a book, all of it or nothing. Whoever changes the same book in this way waits, in
   * whatever process, so that a revision which is compared inside is still the one there is when
   * this is kept.
   *
   * @param <T> what comes of it
   * @param book its id; there need not be such a book
   * @param work what changes it
   */
  <T> T edit(String book, HandleCallback<T, RuntimeException> work);

  /** Makes others wait who ask for the same name, until the transaction of a handle is over. */
  void hold(Handle h, String name);

  /**
   * Returns the moment by the one clock that all processes go by, in milliseconds since 1970.
   *
   * @param clock of this process
   */
  long millis(Handle h, Clock clock);

  /** The same outside of a transaction. */
  long millis(Clock clock);

  /**
   * Lets {@link #millis} say no moment before one from now on, in every process: the clock was set
   * back.
   *
   * @return false where one process has it open alone
   */
  default boolean goOnFrom(long millis, Clock clock) {
    return false;
  }

  /** Gives the space of what was deleted back to the disk, where the database leaves that to us. */
  void shrink();

  /** Drops the traces of what was deleted that the database leaves to us. */
  void forget();

  /** Returns how much the database takes up. */
  Kept.Amount size();
}
