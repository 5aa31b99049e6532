package org.barmap.library.postgres;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;
import org.barmap.library.keep.BadBackupException;
import org.barmap.library.keep.Restoring;
import org.barmap.library.sqlite.copy.Leaving;
import org.barmap.library.sqlite.copy.StoreFile;
import org.barmap.library.sqlite.copy.TableCopy;

/**
 * Puts the rows of a backup in the place of those in a database, in one transaction; those are kept
 * as a file before. Nobody else may be at work there.
 */
record Swapping(Ways ways) implements Restoring.Swap {

  /** Of SQLSTATE (ISO/IEC 9075): values that no column takes, and rules that they break. */
  private static final List<String> DATA = List.of("22", "23");

  private static final String COUNTED =
      "select table_name, column_name from information_schema.columns"
          + " where table_schema = current_schema() and is_identity = 'YES'";

  @Override
  public String place() {
    return ways.address().toString();
  }

  @Override
  public List<String> files() {
    return List.of(Restoring.BOOKS);
  }

  @Override
  public void rows(Path backup, Path aside) throws IOException {
    StoreFile store = new StoreFile(backup);
    store.update();
    String token = String.valueOf(aside.getFileName());
    try (Connection to = ways.patient().getConnection();
        Connection from = store.connect()) {
      to.setAutoCommit(false);
      if (isDone(to, token)) {
        return;
      }
      keep(to, aside);
      TableCopy.empty(to, from);
      TableCopy.copy(from, to, from, Leaving.NOTHING);
      count(to);
      note(to, token);
      to.commit();
    } catch (SQLException e) {
      String state = String.valueOf(e.getSQLState());
      if (DATA.stream().anyMatch(state::startsWith)) {
        throw new BadBackupException(
            "the backup can't be put back: the database does not take what is in it ("
                + String.valueOf(e.getMessage()).lines().findFirst().orElse("")
                + ")");
      }
      throw new IOException(
          "the backup can't be put into the database now ("
              + String.valueOf(e.getMessage()).lines().findFirst().orElse("")
              + "); it waits in the folder restoring, and the next start tries again",
          e);
    }
  }

  private static boolean isDone(Connection to, String token) throws SQLException {
    try (PreparedStatement asked =
        to.prepareStatement("select 1 from keeping where name = ? and value = ?")) {
      asked.setString(1, Leaving.PUT_BACK);
      asked.setString(2, token);
      try (ResultSet row = asked.executeQuery()) {
        return row.next();
      }
    }
  }

  private static void note(Connection to, String token) throws SQLException {
    try (PreparedStatement note =
        to.prepareStatement(
            "insert into keeping (name, value) values (?, ?)"
                + " on conflict (name) do update set value = excluded.value")) {
      note.setString(1, Leaving.PUT_BACK);
      note.setString(2, token);
      note.executeUpdate();
    }
  }

  /** Keeps what is there, as a folder of its own would have it. */
  private static void keep(Connection there, Path aside) throws SQLException, IOException {
    Path file = aside.resolve("barmap.db");
    if (Files.exists(file)) {
      return;
    }
    Path part = aside.resolve("barmap.db.part");
    Files.deleteIfExists(part);
    StoreFile.make(
        part, StoreFile.version(there), copy -> TableCopy.copy(there, copy, copy, Leaving.NOTHING));
    Files.move(part, file, StandardCopyOption.ATOMIC_MOVE);
  }

  /** What is added from now on is counted on from what came. */
  private static void count(Connection to) throws SQLException {
    try (Statement asked = to.createStatement();
        Statement set = to.createStatement();
        ResultSet row = asked.executeQuery(COUNTED)) {
      while (row.next()) {
        String table = row.getString(1);
        String column = row.getString(2);
        set.execute(
            "select setval(pg_get_serial_sequence('\"%s\"', '%s'),".formatted(table, column)
                + " coalesce((select max(\"%s\") from \"%s\"), 0) + 1, false)"
                    .formatted(column, table));
      }
    }
  }
}
