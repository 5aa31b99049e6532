package org.barmap.library.sqlite;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import javax.sql.DataSource;
import org.barmap.library.keep.OurFiles;
import org.barmap.library.keep.RefusedFolderException;
import org.flywaydb.core.Flyway;
import org.flywaydb.core.api.MigrationInfo;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.Jdbi;

/** Looks whether a store may be opened as it is; nothing is changed. */
final class StartChecks {

  private StartChecks() {}

  /** Refuses a folder with pictures and no store: a new store would know none of them. */
  static void pictured(Path folder, Path store) throws IOException {
    boolean there = Files.exists(store);
    if (there && Files.size(store) > 0) {
      return;
    }
    List<Path> books = pictured(folder);
    if (!books.isEmpty()) {
      throw refused(
          folder,
          "it holds page pictures of "
              + many(books.size())
              + ", but its database barmap.db is "
              + (there ? "empty" : "missing")
              + ". Put the right barmap.db back, or a backup (barmap restore); to begin anew, move"
              + " the folder books somewhere else first");
    }
  }

  /**
   * Tells whether a store keeps what holds for all of it: an older one has no table for that before
   * it is brought up to date.
   */
  static boolean isKept(Handle h) {
    return hasTable(h, "keeping");
  }

  static boolean hasTable(Handle h, String table) {
    return h.createQuery("select count(*) from sqlite_master where type = 'table' and name = :name")
            .bind("name", table)
            .mapTo(Integer.class)
            .one()
        > 0;
  }

  /** Refuses a store whose pages are damaged. */
  static void whole(Jdbi jdbi, Path folder) throws RefusedFolderException {
    List<String> found;
    try {
      found =
          jdbi.withHandle(h -> h.createQuery("pragma quick_check(3)").mapTo(String.class).list());
    } catch (RuntimeException e) {
      throw damaged(folder, String.valueOf(SqliteLibrary.root(e).getMessage()));
    }
    if (!found.equals(List.of("ok"))) {
      throw damaged(folder, found.get(0));
    }
  }

  /** Says that a store is damaged. */
  static RefusedFolderException damaged(Path folder, String what) {
    return refused(
        folder,
        "its database barmap.db is damaged ("
            + what.lines().findFirst().orElse("")
            + "). Nothing was changed. Put a backup back (barmap restore), or keep this folder and"
            + " name another one with --data");
  }

  /** Tells whether SQLite says that a file is no store, or no whole one. */
  static boolean isDamage(Throwable e) {
    String text = String.valueOf(e.getMessage());
    return text.contains("SQLITE_CORRUPT") || text.contains("SQLITE_NOTADB");
  }

  /** Returns what knows every version of a store. */
  static Flyway flyway(DataSource store) {
    return Flyway.configure(SqliteLibrary.class.getClassLoader())
        .dataSource(store)
        .locations("classpath:org/barmap/library/migration/sqlite")
        .load();
  }

  /** Refuses a store of a later program. */
  static void known(Flyway flyway, Path folder) throws RefusedFolderException {
    for (MigrationInfo one : flyway.info().all()) {
      if (one.getState().isApplied() && !one.getState().isResolved()) {
        throw refused(
            folder,
            "it was used by a newer barmap (its database is of version "
                + one.getVersion()
                + ", this program knows them up to "
                + newest(flyway)
                + "). Start that one, or name another folder with --data");
      }
    }
  }

  /** Returns the newest version of a store that this program knows. */
  static String newest(Flyway flyway) {
    return Arrays.stream(flyway.info().all())
        .filter(one -> one.getState().isResolved())
        .reduce((a, b) -> b)
        .map(one -> String.valueOf(one.getVersion()))
        .orElse("none");
  }

  /** Refuses a store that knows none of the books whose pictures are there. */
  static void fitting(Jdbi jdbi, Path folder) throws RefusedFolderException {
    Set<String> known =
        new HashSet<>(
            jdbi.withHandle(
                h ->
                    h.createQuery("select id from book union select file from doomed")
                        .mapTo(String.class)
                        .list()));
    List<Path> books = pictured(folder);
    if (!books.isEmpty() && books.stream().noneMatch(b -> known.contains(OurFiles.name(b)))) {
      throw refused(
          folder,
          "its database barmap.db belongs to other books: it knows none of the "
              + many(books.size())
              + " whose page pictures are there. Put the right barmap.db back, or a backup (barmap"
              + " restore); to go on without these pictures, move the folder books somewhere else"
              + " first");
    }
  }

  /** Tells whether there are pictures of pages in a folder. */
  static boolean hasPictures(Path folder) {
    return !pictured(folder).isEmpty();
  }

  private static List<Path> pictured(Path folder) {
    return OurFiles.list(folder.resolve("books")).stream()
        .filter(OurFiles::isBook)
        .filter(book -> OurFiles.list(book).stream().anyMatch(OurFiles::isPicture))
        .toList();
  }

  private static String many(int books) {
    return books == 1 ? "1 book" : books + " books";
  }

  private static RefusedFolderException refused(Path folder, String why) {
    return new RefusedFolderException("the data folder " + folder + " is not opened: " + why);
  }
}
