package org.barmap.library.sqlite.copy;

import java.io.IOException;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.library.keep.BackupWriter;
import org.barmap.library.keep.PictureMark;
import org.barmap.library.sql.Migrations;
import org.barmap.library.sql.SqlLibrary;
import org.flywaydb.core.api.FlywayException;
import org.sqlite.SQLiteConfig;
import org.sqlite.SQLiteDataSource;

/** A store in a file that nobody else has open. */
public record StoreFile(Path file) {

  /** Fills tables that are empty still. */
  @FunctionalInterface
  public interface Filling {

    /**
     * Copies rows.
     *
     * @param to the new store
     */
    void into(Connection to) throws SQLException;
  }

  /**
   * Makes one.
   *
   * @param version of its tables
   */
  public static StoreFile make(Path file, String version, Filling filling)
      throws SQLException, IOException {
    StoreFile store = new StoreFile(file);
    // nobody needs half of it, so nothing waits for the disk: where this is cut short, it goes
    SQLiteConfig quick = new SQLiteConfig();
    quick.setSynchronous(SQLiteConfig.SynchronousMode.OFF);
    quick.setJournalMode(SQLiteConfig.JournalMode.MEMORY);
    SQLiteDataSource source = new SQLiteDataSource(quick);
    source.setUrl(store.source().getUrl());
    new Migrations(source, "sqlite", version).run();
    try (Connection to = source.getConnection()) {
      to.setAutoCommit(false);
      // what a migration may have put there comes from the other store as well
      TableCopy.empty(to, to);
      filling.into(to);
      to.commit();
    }
    return store;
  }

  private SQLiteDataSource source() {
    SQLiteDataSource source = new SQLiteDataSource();
    source.setUrl("jdbc:sqlite:" + file.toAbsolutePath());
    return source;
  }

  /** Returns a connection that runs nothing which the file itself says. */
  public Connection connect() throws SQLException {
    Connection connection = source().getConnection();
    try (Statement once = connection.createStatement()) {
      once.execute("pragma trusted_schema = off");
      once.execute("pragma cell_size_check = on");
    }
    return connection;
  }

  /** Brings its tables up to date. */
  public void update() throws IOException {
    try {
      new Migrations(source(), "sqlite").run();
    } catch (FlywayException e) {
      throw new IOException("the store can't be brought up to date", e);
    }
  }

  /** Returns which version of the tables a connection of either kind leads to. */
  public static String version(Connection connection) throws SQLException {
    return Tables.texts(
            connection,
            "select version from flyway_schema_history where version is not null"
                + " order by installed_rank desc limit 1",
            1)
        .get(0);
  }

  /** Returns how many books are in it, those in the bin too. */
  int books() throws SQLException {
    try (Connection connection = connect()) {
      return Integer.parseInt(Tables.texts(connection, "select count(*) from book", 1).get(0));
    }
  }

  /** Returns the files that it names. */
  List<BackupWriter.Named> named() throws SQLException {
    List<BackupWriter.Named> named = new ArrayList<>();
    String query =
        """
        with n (path) as (%s)
        select n.path, coalesce(b.title || ', ' || b.part, '') as title, k.bytes, k.sha256
        from n left join book b on b.id = substr(n.path, 1, instr(n.path, '/') - 1)
        left join picture k on k.book = b.id and k.file = substr(n.path, instr(n.path, '/') + 1)
        order by n.path
        """
            .formatted(SqlLibrary.NAMED);
    try (Connection connection = connect();
        PreparedStatement statement = connection.prepareStatement(query);
        ResultSet row = statement.executeQuery()) {
      while (row.next()) {
        String hash = Optional.ofNullable(row.getString("sha256")).orElse("");
        long bytes = row.getLong("bytes");
        Optional<PictureMark> mark =
            row.wasNull() ? Optional.empty() : Optional.of(new PictureMark(bytes, hash));
        named.add(
            new BackupWriter.Named(row.getString("path"), String.valueOf(row.getString(2)), mark));
      }
    }
    return named;
  }
}
