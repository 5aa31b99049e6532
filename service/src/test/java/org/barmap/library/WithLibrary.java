package org.barmap.library;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.io.TempDir;

/** A test with an empty library, by a clock that is set by hand. */
abstract class WithLibrary {

  static final Instant NOW = Instant.parse("2026-11-24T20:00:00Z");

  @TempDir Path folder;

  final HandClock clock = new HandClock(NOW);
  Library library;

  /** Returns the kind of store it is on. */
  Stores store() {
    return Stores.SQLITE;
  }

  @BeforeEach
  void open() throws IOException {
    library = store().open(folder, clock);
  }

  @AfterEach
  void close() {
    library.close();
  }

  /** Ends the program and starts it again. */
  void reopen() throws IOException {
    close();
    open();
  }
}
