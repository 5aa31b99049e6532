package org.barmap.library;

import io.zonky.test.db.postgres.embedded.EmbeddedPostgres;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Clock;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.Stream;
import org.barmap.library.keep.Closing;
import org.barmap.library.postgres.DatabaseAddress;
import org.barmap.library.postgres.PostgresLibrary;
import org.barmap.library.sql.Migrations;
import org.barmap.library.sqlite.SqliteLibrary;
import org.sqlite.SQLiteDataSource;

/** The real stores that tests run on: every data folder has one of its own. */
public enum Stores {
  /** A file in the data folder. */
  SQLITE {
    @Override
    public Library open(Path folder, Clock clock) throws IOException {
      if (isEmpty(folder)) {
        Path file = Files.createFile(folder.resolve("barmap.db"), Closing.file(folder));
        Files.write(file, Tables.MADE);
      }
      return SqliteLibrary.open(folder, clock);
    }

    @Override
    public Connection connect(Path folder) throws SQLException {
      return DriverManager.getConnection("jdbc:sqlite:" + folder.resolve("barmap.db"));
    }
  },
  /** A database of a PostgreSQL that runs as long as the tests do. */
  POSTGRES {
    @Override
    public Library open(Path folder, Clock clock) throws IOException {
      return PostgresLibrary.open(
          DatabaseAddress.of(postgres(folder), Optional.empty()), folder, clock);
    }

    @Override
    public Connection connect(Path folder) throws SQLException {
      String url = "jdbc:" + postgres(folder).replace("postgres@", "");
      return DriverManager.getConnection(url, "postgres", "");
    }
  };

  private static final Map<Path, String> NAMES = new ConcurrentHashMap<>();
  private static final AtomicInteger NEXT = new AtomicInteger();

  /** Opens the library of a folder. */
  public abstract Library open(Path folder, Clock clock) throws IOException;

  /** Reaches past the library. */
  public abstract Connection connect(Path folder) throws SQLException;

  /**
   * Returns the address of the PostgreSQL database of a folder, made when it is asked for first.
   */
  public static String postgres(Path folder) {
    String name =
        NAMES.computeIfAbsent(
            folder,
            f -> {
              String fresh = "books" + NEXT.incrementAndGet();
              sql("postgres", "create database " + fresh + " template made");
              return fresh;
            });
    return "postgresql://postgres@localhost:" + Server.RUNNING.getPort() + "/" + name;
  }

  private static boolean isEmpty(Path folder) throws IOException {
    if (!Files.isDirectory(folder)) {
      return false;
    }
    try (Stream<Path> files = Files.list(folder)) {
      return files.findAny().isEmpty();
    }
  }

  /** The file of a store with its tables and nothing in them: to make them takes half a start. */
  private static final class Tables {

    static final byte[] MADE = made();

    private static byte[] made() {
      try {
        Path file = Files.createTempFile("barmap-tables", ".db");
        SQLiteDataSource source = new SQLiteDataSource();
        source.setUrl("jdbc:sqlite:" + file);
        new Migrations(source, "sqlite").run();
        byte[] made = Files.readAllBytes(file);
        Files.delete(file);
        return made;
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
  }

  private static void sql(String database, String statement) {
    String url = "jdbc:postgresql://localhost:" + Server.RUNNING.getPort() + "/" + database;
    try (Connection connection = DriverManager.getConnection(url, "postgres", "");
        Statement one = connection.createStatement()) {
      one.execute(statement);
    } catch (SQLException e) {
      throw new IllegalStateException(e);
    }
  }

  /** Started when the first test asks for it; ends with the tests. */
  private static final class Server {

    static final EmbeddedPostgres RUNNING = start();

    private static EmbeddedPostgres start() {
      try {
        EmbeddedPostgres server = EmbeddedPostgres.builder().start();
        String url = "jdbc:postgresql://localhost:" + server.getPort() + "/postgres";
        try (Connection connection = DriverManager.getConnection(url, "postgres", "");
            Statement one = connection.createStatement()) {
          one.execute("create database made");
        }
        new Migrations(server.getDatabase("postgres", "made"), "postgres").run();
        return server;
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      } catch (SQLException e) {
        throw new IllegalStateException(e);
      }
    }
  }
}
