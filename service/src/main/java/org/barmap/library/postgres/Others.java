package org.barmap.library.postgres;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import org.jdbi.v3.core.Jdbi;
import org.jdbi.v3.core.JdbiException;

/**
 * The other processes on a database, as each notes itself there while it stays. The lock of each
 * goes with its connection; the note does not, so that one whose line is broken for a moment is not
 * taken for gone by who starts then: that one would set aside what is being uploaded, delete half
 * an opened book, and take readings away.
 *
 * @param connection whose lock keeps others from coming meanwhile
 * @param own this process's name
 * @param lock the number of the lock
 */
record Others(Connection connection, String own, long lock) {

  private static final System.Logger LOG = System.getLogger(Others.class.getName());
  private static final String NAME = "process ";
  private static final int LOOK_MILLIS = 50;

  /** What two readings of a process's beginning may differ by. */
  private static final long SAME_MILLIS = 2000;

  /** The names in this process; tests have several. */
  private static final Set<String> HERE = ConcurrentHashMap.newKeySet();

  /** What is noted of one. */
  private record Noted(String name, String where) {

    /** Tells whether it is one of this machine, which can be told at once. */
    boolean isNear() {
      return where.startsWith(machine() + " ");
    }

    boolean isAlive() {
      String[] parts = where.split(" ");
      try {
        long pid = Long.parseLong(parts[1]);
        long begun = Long.parseLong(parts[2]);
        return pid == ProcessHandle.current().pid()
            ? HERE.contains(name)
            : ProcessHandle.of(pid)
                .filter(ProcessHandle::isAlive)
                .filter(p -> Math.abs(begun(p) - begun) <= SAME_MILLIS)
                .isPresent();
      } catch (NumberFormatException | ArrayIndexOutOfBoundsException e) {
        return false;
      }
    }
  }

  private static long begun(ProcessHandle process) {
    return process.info().startInstant().map(i -> i.toEpochMilli()).orElse(0L);
  }

  /** Returns the name of the machine with the room in which its numbers of processes hold. */
  static String machine() {
    return text("/proc/sys/kernel/hostname") + "/" + link("/proc/self/ns/pid");
  }

  private static String text(String file) {
    try {
      return Files.readString(Path.of(file)).strip().replaceAll("\\s", "-");
    } catch (IOException e) {
      return System.getProperty("os.name", "").replaceAll("\\s", "-");
    }
  }

  private static String link(String file) {
    try {
      return Files.readSymbolicLink(Path.of(file)).toString();
    } catch (IOException | UnsupportedOperationException e) {
      return "";
    }
  }

  /** Notes this process. */
  static void note(Connection connection, String own) throws SQLException {
    HERE.add(NAME + own);
    ProcessHandle here = ProcessHandle.current();
    try (PreparedStatement note =
        connection.prepareStatement(
            "insert into keeping (name, value) values (?, ?)"
                + " on conflict (name) do update set value = excluded.value")) {
      note.setString(1, NAME + own);
      note.setString(2, machine() + " " + here.pid() + " " + begun(here));
      note.executeUpdate();
    }
  }

  /**
   * Takes the note out again.
   *
   * @param reached whether the database could be reached lately; who starts next on this machine
   *     sees without it that this process is gone
   */
  static void leave(Jdbi jdbi, String own, boolean reached) {
    boolean here = HERE.remove(NAME + own);
    if (here && reached) {
      try {
        jdbi.useHandle(h -> h.execute("delete from keeping where name = ?", NAME + own));
      } catch (JdbiException e) {
        LOG.log(System.Logger.Level.DEBUG, "the note of this process stays", e);
      }
    }
  }

  /**
   * Tells whether every other process is gone, with the lock held. One of another machine that does
   * not come back within a while is, and its note goes; one that comes waits for the lock.
   */
  boolean areGone(Duration grace) throws SQLException {
    long end = System.nanoTime() + grace.toNanos();
    while (true) {
      List<Noted> others = others();
      for (Noted one : others) {
        if (one.isNear() && one.isAlive()) {
          return false;
        }
      }
      if (isAwaited()) {
        return false;
      }
      if (others.stream().allMatch(Noted::isNear) || System.nanoTime() >= end) {
        forget(others);
        return true;
      }
      pause();
    }
  }

  private static void pause() throws SQLException {
    try {
      Thread.sleep(LOOK_MILLIS);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new SQLException("interrupted", e);
    }
  }

  private List<Noted> others() throws SQLException {
    List<Noted> others = new ArrayList<>();
    try (Statement statement = connection.createStatement()) {
      try (ResultSet row = statement.executeQuery("select to_regclass('keeping') is not null")) {
        if (!row.next() || !row.getBoolean(1)) {
          return others;
        }
      }
      try (ResultSet row =
          statement.executeQuery(
              "select name, value from keeping where name like '" + NAME + "%'")) {
        while (row.next()) {
          others.add(new Noted(row.getString(1), row.getString(2)));
        }
      }
    }
    others.removeIf(one -> one.name().equals(NAME + own));
    return others;
  }

  /** Tells whether somebody waits for the lock. */
  private boolean isAwaited() throws SQLException {
    try (Statement statement = connection.createStatement();
        ResultSet row =
            statement.executeQuery(
                """
                select exists (select 1 from pg_locks where locktype = 'advisory' and not granted
                  and database = (select oid from pg_database where datname = current_database())
                  and classid = %d and objid = %d and objsubid = 1)
                """
                    .formatted(lock >>> 32, lock & 0xffff_ffffL))) {
      return row.next() && row.getBoolean(1);
    }
  }

  private void forget(List<Noted> gone) throws SQLException {
    try (PreparedStatement delete =
        connection.prepareStatement("delete from keeping where name = ?")) {
      for (Noted one : gone) {
        delete.setString(1, one.name());
        delete.executeUpdate();
      }
    }
  }
}
