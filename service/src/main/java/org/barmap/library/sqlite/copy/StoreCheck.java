package org.barmap.library.sqlite.copy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;
import java.util.Locale;
import java.util.function.Predicate;
import java.util.regex.Pattern;
import org.barmap.library.keep.BadBackupException;
import org.barmap.library.keep.Restoring;
import org.barmap.library.sql.Migrations;
import org.sqlite.SQLiteDataSource;

/** Looks whether a store that came from elsewhere may be used. */
public final class StoreCheck {

  private static final Pattern ID = Pattern.compile("[a-z0-9]{1,40}");
  private static final Pattern VERSION = Pattern.compile("\\d{1,9}");

  /** Every table, index, view and trigger; what Flyway notes is compared by its rows. */
  private static final String SHAPE =
      "select type || ' ' || name || ' ' || tbl_name || ' ' || coalesce(sql, '') from sqlite_master"
          + " where name not like 'sqlite%' and tbl_name <> 'flyway_schema_history' order by 1";

  private static final String NOTED =
      "select type || ' ' || name from sqlite_master where tbl_name = 'flyway_schema_history'"
          + " order by 1";

  private static final String HISTORY =
      "select coalesce(version, '') || ' ' || coalesce(checksum, 0) || ' ' || success"
          + " from flyway_schema_history order by installed_rank";

  private StoreCheck() {}

  /**
   * Looks at one.
   *
   * @throws BadBackupException when it is damaged, of a newer program, or not as barmap makes it
   */
  public static void check(Path file) throws IOException {
    Path fresh = file.resolveSibling("compared.db");
    StoreFile store = new StoreFile(file);
    try (Connection connection = store.connect()) {
      String version = version(connection);
      StoreFile.make(fresh, version, nothing -> {});
      try (Connection made = new StoreFile(fresh).connect()) {
        for (String query : List.of(SHAPE, NOTED, HISTORY)) {
          if (!Tables.texts(connection, query, 1).equals(Tables.texts(made, query, 1))) {
            throw bad("its tables are not those that barmap makes");
          }
        }
        whole(connection);
        names(connection, Tables.names(made));
      }
    } catch (SQLException e) {
      throw bad("its database is damaged (" + firstLine(e) + ")");
    } finally {
      for (String left : List.of("", "-wal", "-shm", "-journal")) {
        Files.deleteIfExists(fresh.resolveSibling(fresh.getFileName() + left));
      }
    }
  }

  private static BadBackupException bad(String why) {
    return new BadBackupException("the backup can't be put back: " + why);
  }

  private static String firstLine(SQLException e) {
    return String.valueOf(e.getMessage()).lines().findFirst().orElse("");
  }

  private static String version(Connection connection) throws SQLException, IOException {
    // a table, for a view of this name could be anything
    List<String> there =
        Tables.texts(
            connection,
            "select sql from sqlite_master where type = 'table' and name = 'flyway_schema_history'",
            1);
    if (there.size() != 1 || there.get(0).toLowerCase(Locale.ROOT).contains("virtual")) {
      throw bad("it holds no books of barmap");
    }
    String version = StoreFile.version(connection);
    SQLiteDataSource none = new SQLiteDataSource();
    none.setUrl("jdbc:sqlite::memory:");
    Migrations known = new Migrations(none, "sqlite");
    if (!VERSION.matcher(version).matches() || !known.knows(version)) {
      throw bad(
          "it was made by a newer barmap (its database is of version "
              + version
              + ", this program knows them up to "
              + known.newest()
              + ")");
    }
    return version;
  }

  private static void whole(Connection connection) throws SQLException, IOException {
    if (!Tables.texts(connection, "pragma integrity_check(1)", 1).equals(List.of("ok"))) {
      throw bad("its database is damaged");
    }
    if (!Tables.texts(connection, "pragma foreign_key_check", 1).isEmpty()) {
      throw bad("its database is damaged: it names what is not there");
    }
  }

  /** What is read out of a store becomes names of files: none may lead elsewhere. */
  private static void names(Connection connection, List<String> tables)
      throws SQLException, IOException {
    Predicate<String> id = ID.asMatchPredicate();
    Predicate<String> file = name -> name.isEmpty() || Restoring.isFile("books/x/" + name);
    Predicate<String> doomed = name -> id.test(name) || Restoring.isFile("books/" + name);
    all(connection, "select id from book", id);
    all(connection, "select id from page", id);
    all(connection, "select picture from page", file);
    all(connection, "select file from upload", file);
    for (String table : List.of("second_reading", "picture")) {
      if (tables.contains(table)) {
        all(connection, "select file from " + table, file);
      }
    }
    if (tables.contains("doomed")) {
      all(connection, "select file from doomed", doomed);
    }
  }

  private static void all(Connection connection, String query, Predicate<String> good)
      throws SQLException, IOException {
    try (Statement statement = connection.createStatement();
        ResultSet row = statement.executeQuery(query)) {
      while (row.next()) {
        if (!good.test(String.valueOf(row.getString(1)))) {
          throw bad("it holds names of files that barmap does not give");
        }
      }
    }
  }
}
