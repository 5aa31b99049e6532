package org.barmap.library.sql.turn;

import java.time.Instant;
import java.util.Optional;
import java.util.function.Consumer;
import org.jdbi.v3.core.Handle;

/** What the row must know of jobs. */
public interface Ledger {

  /** Does something in a transaction in which nobody else changes the book. */
  void edit(String book, Consumer<Handle> work);

  /** Returns from when on something is to be done for a book; empty when there is nothing. */
  Optional<Instant> due(Handle h, String book);

  /** Returns how many pages of a book are to be read, and files to be opened. */
  int left(Handle h, String book);

  /** Notes that a turn of a book came to its end, whatever came of it. */
  void ended(Handle h, String book);
}
