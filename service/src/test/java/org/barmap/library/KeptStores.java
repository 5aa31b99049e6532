package org.barmap.library;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import java.util.zip.ZipOutputStream;
import org.barmap.edit.Made;
import org.barmap.map.json.BarMapJson;
import org.flywaydb.core.Flyway;
import org.flywaydb.core.api.MigrationInfo;

/**
 * Stores of every version there was, each with a book of three pages, in {@code
 * src/test/resources/org/barmap/kept/stores.zip}. A migration that is new gets its store by running
 * {@link #main} with the folder of that file; those that are there already stay as they are.
 */
final class KeptStores {

  static final String PAGE = "uaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa.png";
  static final String BOOK = "abcdefghjk";
  private static final String MIGRATIONS = "classpath:org/barmap/library/migration/sqlite";

  private KeptStores() {}

  /** A store as an older program left it. */
  record Store(String version, byte[] bytes) {
    @Override
    public String toString() {
      return "version " + version;
    }
  }

  static List<Store> all() throws IOException {
    try (ZipInputStream zip =
        new ZipInputStream(KeptStores.class.getResourceAsStream("/org/barmap/kept/stores.zip"))) {
      return all(zip);
    }
  }

  private static List<Store> all(ZipInputStream zip) throws IOException {
    List<Store> stores = new ArrayList<>();
    for (ZipEntry e = zip.getNextEntry(); e != null; e = zip.getNextEntry()) {
      stores.add(new Store(e.getName().replaceAll("\\D", ""), zip.readAllBytes()));
    }
    return stores;
  }

  /** Returns the versions this program's migrations lead to. */
  static List<String> versions() {
    List<String> versions = new ArrayList<>();
    for (MigrationInfo one :
        Flyway.configure()
            .dataSource("jdbc:sqlite::memory:", "", "")
            .locations(MIGRATIONS)
            .load()
            .info()
            .all()) {
      versions.add(String.valueOf(one.getVersion()));
    }
    return versions;
  }

  /** Makes the stores that are missing. */
  public static void main(String[] args) throws IOException, SQLException {
    Path file = Path.of(args[0]).resolve("stores.zip");
    List<Store> stores = new ArrayList<>();
    if (Files.exists(file)) {
      try (ZipInputStream zip = new ZipInputStream(Files.newInputStream(file))) {
        stores.addAll(all(zip));
      }
    }
    for (String version : versions()) {
      if (stores.stream().noneMatch(s -> s.version().equals(version))) {
        stores.add(new Store(version, made(version)));
      }
    }
    try (OutputStream out = Files.newOutputStream(file);
        ZipOutputStream zip = new ZipOutputStream(out)) {
      for (Store store : stores) {
        zip.putNextEntry(new ZipEntry("v" + store.version() + ".db"));
        zip.write(store.bytes());
        zip.closeEntry();
      }
    }
  }

  private static byte[] made(String version) throws IOException, SQLException {
    Path file = Files.createTempFile("barmap", ".db");
    try {
      String url = "jdbc:sqlite:" + file;
      to(url, "1");
      try (Connection connection = DriverManager.getConnection(url)) {
        fill(connection);
      }
      to(url, version);
      return Files.readAllBytes(file);
    } finally {
      Files.delete(file);
    }
  }

  private static void to(String url, String version) {
    Flyway.configure()
        .dataSource(url, "", "")
        .locations(MIGRATIONS)
        .target(version)
        .load()
        .migrate();
  }

  /** What the first program kept of a book; every later version is migrated from it. */
  private static void fill(Connection connection) throws SQLException {
    try (PreparedStatement book =
        connection.prepareStatement(
            """
            insert into book (id, title, part, created_at, draft_revision, draft_map, draft_settled,
              bars, changes_revision, changes)
            values (?, 'Saltmarsh', 'Bass', '2026-01-02T03:04:05Z', 1, ?, '{}', 24, 1, ?)
            """)) {
      book.setString(1, BOOK);
      book.setString(2, BarMapJson.mapper().writeValueAsString(Made.book(3)));
      book.setString(
          3, "[{\"id\":\"c1\",\"kind\":\"cut\",\"number\":\"1\",\"first\":\"3\",\"last\":\"4\"}]");
      book.executeUpdate();
    }
    try (Statement more = connection.createStatement()) {
      for (int i = 1; i <= 3; i++) {
        more.executeUpdate(
            "insert into page (id, book, position, source, picture, part, width, height, state,"
                + " reading) values ('p%d', '%s', %d, 'page.png', '%s', %d, 100, 140, 'read', '{}')"
                    .formatted(i, BOOK, i, PAGE, i));
      }
      more.executeUpdate(
          "insert into change_step (id, book, made_at, who, text, before, after, state)"
              + " values ('s1', '%s', '2026-01-03T03:04:05Z', '', 'Added: cut', '[]', (select changes"
                  .formatted(BOOK)
              + " from book), 'done')");
    }
  }
}
