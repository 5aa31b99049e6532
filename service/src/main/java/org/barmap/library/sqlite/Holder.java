package org.barmap.library.sqlite;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Optional;
import org.barmap.library.sql.Keys;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.Jdbi;

/**
 * Which process has the store open, noted in the store: the lock file beside it can be deleted, and
 * a second process would then get a lock of its own.
 *
 * @param pid number of the process
 * @param begun when it began, in milliseconds since 1970: numbers are used again
 * @param folder where the store lay then; a copy of it elsewhere is held by nobody
 */
record Holder(long pid, long begun, String folder) {

  /** What two readings of a process's beginning may differ by. */
  private static final long SAME = 2000;

  private static final String NAME = "holder";

  static Holder of(Path folder) throws IOException {
    ProcessHandle here = ProcessHandle.current();
    return new Holder(here.pid(), begun(here), folder.toRealPath().toString());
  }

  private static long begun(ProcessHandle process) {
    return process.info().startInstant().map(i -> i.toEpochMilli()).orElse(0L);
  }

  /** Tells whether the store may be opened in a folder; asked before anything in it is changed. */
  static boolean isFree(Jdbi jdbi, Path folder) throws IOException {
    String here = folder.toRealPath().toString();
    return jdbi.withHandle(h -> StartChecks.isKept(h) ? find(h) : Optional.<Holder>empty())
        .filter(holder -> holder.folder.equals(here))
        .filter(Holder::isAlive)
        .isEmpty();
  }

  private boolean isAlive() {
    return ProcessHandle.of(pid)
        .filter(ProcessHandle::isAlive)
        .filter(process -> Math.abs(begun(process) - begun) <= SAME)
        .isPresent();
  }

  /** Notes this process; false when another one was faster. */
  static boolean take(Jdbi jdbi, Path folder) throws IOException {
    Holder mine = of(folder);
    return jdbi.inTransaction(
        h -> {
          boolean free =
              find(h).filter(o -> o.folder.equals(mine.folder)).filter(Holder::isAlive).isEmpty();
          if (free) {
            Keys.set(h, NAME, Optional.of(mine.pid + " " + mine.begun + " " + mine.folder));
          }
          return free;
        });
  }

  /** Lets go of the store. */
  static void leave(Jdbi jdbi) {
    jdbi.useTransaction(Holder::leave);
  }

  /** Takes the note out, also out of a copy. */
  static void leave(Handle h) {
    Keys.set(h, NAME, Optional.empty());
  }

  private static Optional<Holder> find(Handle h) {
    return Keys.find(h, NAME)
        .map(text -> text.split(" ", 3))
        .filter(parts -> parts.length == 3)
        .map(p -> new Holder(Long.parseLong(p[0]), Long.parseLong(p[1]), p[2]));
  }
}
