package org.barmap.library.sqlite;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import javax.sql.DataSource;
import org.barmap.library.keep.OurFiles;
import org.barmap.library.keep.RefusedFolderException;
import org.barmap.library.sql.Migrations;
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
    List<Path> books = OurFiles.pictured(folder);
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
  static Migrations migrations(DataSource store) {
    return new Migrations(store, "sqlite");
  }

  /** Refuses a store of a later program. */
  static void known(Migrations migrations, Path folder) throws RefusedFolderException {
    Optional<String> newer = migrations.newer();
    if (newer.isPresent()) {
      throw refused(
          folder, "it " + newer.get() + ". Start that one, or name another folder with --data");
    }
  }

  /** Refuses a store that knows none of the books whose pictures are there. */
  static void fitting(List<Path> books, Path folder) throws RefusedFolderException {
    if (!books.isEmpty()) {
      throw refused(
          folder,
          "its database barmap.db belongs to other books: it knows none of the "
              + many(books.size())
              + " whose page pictures are there. Put the right barmap.db back, or a backup (barmap"
              + " restore); to go on without these pictures, move the folder books somewhere else"
              + " first");
    }
  }

  private static String many(int books) {
    return books == 1 ? "1 book" : books + " books";
  }

  private static RefusedFolderException refused(Path folder, String why) {
    return new RefusedFolderException("the data folder " + folder + " is not opened: " + why);
  }
}
