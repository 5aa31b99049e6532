package org.barmap.library.postgres;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Clock;
import java.util.HashSet;
import java.util.Optional;
import java.util.Set;
import org.barmap.library.keep.BadBackupException;
import org.barmap.library.keep.Closing;
import org.barmap.library.keep.OurFiles;
import org.barmap.library.keep.RefusedFolderException;
import org.barmap.library.keep.Restoring;
import org.barmap.library.picture.PictureStore;
import org.barmap.library.sql.Migrations;
import org.barmap.library.sql.SqlLibrary;
import org.barmap.library.sqlite.copy.BackupFile;
import org.barmap.library.sqlite.copy.BackupFile.PutBack;
import org.barmap.library.sqlite.copy.BackupFile.Saved;
import org.barmap.library.sqlite.copy.Leaving;
import org.barmap.library.sqlite.copy.StoreFile;
import org.barmap.library.sqlite.copy.TableCopy;
import org.barmap.library.sqlite.copy.Unpacking;
import org.jdbi.v3.core.Jdbi;

/** All of a library in a database in one file, and back, also while others work on it. */
public final class PostgresBackup {

  private PostgresBackup() {}

  /** A database as it is at one moment. */
  private record Shelf(Ways ways) implements BackupFile.Shelf {

    @Override
    public StoreFile copy(Path to, Leaving leaving) throws IOException {
      try (Connection from = ways.patient().getConnection()) {
        from.setReadOnly(true);
        from.setTransactionIsolation(Connection.TRANSACTION_REPEATABLE_READ);
        from.setAutoCommit(false);
        return StoreFile.make(
            to, StoreFile.version(from), copy -> TableCopy.copy(from, copy, copy, leaving));
      } catch (SQLException e) {
        throw PostgresLibrary.explained(ways.address(), e);
      }
    }

    @Override
    public Set<String> named() throws IOException {
      Set<String> named = new HashSet<>();
      try (Connection from = ways.patient().getConnection();
          Statement statement = from.createStatement();
          ResultSet row = statement.executeQuery(SqlLibrary.NAMED)) {
        while (row.next()) {
          named.add(row.getString(1));
        }
        return named;
      } catch (SQLException e) {
        throw PostgresLibrary.explained(ways.address(), e);
      }
    }

    /** Returns how many books are there; empty where there are no tables of ours. */
    Optional<Integer> books() throws IOException {
      try (Connection from = ways.patient().getConnection();
          Statement statement = from.createStatement()) {
        try (ResultSet row = statement.executeQuery("select to_regclass('book') is not null")) {
          if (!row.next() || !row.getBoolean(1)) {
            return Optional.empty();
          }
        }
        try (ResultSet row = statement.executeQuery("select count(*) from book")) {
          return row.next() ? Optional.of(row.getInt(1)) : Optional.empty();
        }
      } catch (SQLException e) {
        throw PostgresLibrary.explained(ways.address(), e);
      }
    }
  }

  /**
   * Writes a library into one file; there is all of it or none.
   *
   * @param pictures where they are kept
   * @param with whether the pictures of pages go along
   * @throws RefusedFolderException when there are no books, or they are of a later program
   */
  public static Saved save(DatabaseAddress address, PictureStore pictures, Path to, boolean with)
      throws IOException {
    Ways ways = new Ways(address);
    Shelf shelf = new Shelf(ways);
    if (shelf.books().isEmpty()) {
      throw new RefusedFolderException("there are no books in the database " + address);
    }
    PostgresLibrary.known(new Migrations(ways.patient(), "postgres"), address);
    return BackupFile.save(shelf, pictures::read, to, with);
  }

  /**
   * Puts a library back, all of it or nothing. What was there is set aside in the folder.
   *
   * @param folder where pictures are worked on; all processes on the database see it
   * @param pictures where they are kept
   * @param replace whether it may take the place of books that are there
   * @throws BadBackupException when the file is no whole backup
   * @throws RefusedFolderException when there are books, and they may not be replaced
   */
  public static PutBack restore(
      Path file,
      DatabaseAddress address,
      Path folder,
      PictureStore pictures,
      boolean replace,
      Clock clock)
      throws IOException {
    if (!Files.isRegularFile(file)) {
      throw new NoSuchFileException(file.toString());
    }
    Ways ways = new Ways(address);
    int books = new Shelf(ways).books().orElse(0);
    boolean there = books > 0 || !OurFiles.pictured(folder).isEmpty();
    if (there && !replace) {
      throw new RefusedFolderException(
          "there is something in the database "
              + address
              + " or the folder "
              + folder
              + " already ("
              + (books == 1 ? "1 book" : books + " books")
              + "); name others, or say --replace: what is there is set aside, not deleted");
    }
    Jdbi jdbi = Jdbi.create(ways.patient());
    // before anything waits in the folder: the next start would put it back after all
    PostgresLibrary.checked(jdbi, ways);
    Closing.make(folder);
    Swapping swap = new Swapping(ways);
    Unpacking unpacking = new Unpacking(pictures);
    Restoring.Unpacked unpacked = Restoring.unpack(file, folder, swap.place(), unpacking, clock);
    try (Presence presence = Presence.come(ways.patient(), jdbi)) {
      boolean alone = presence.wasAlone();
      Optional<Path> aside = Optional.empty();
      if (alone) {
        PostgresLibrary.ready(jdbi, ways, alone);
        aside = Restoring.finish(folder, swap, unpacking);
      }
      return new PutBack(unpacked.books(), unpacked.pictures(), aside.filter(a -> there), !alone);
    } catch (SQLException e) {
      throw PostgresLibrary.explained(address, e);
    }
  }
}
