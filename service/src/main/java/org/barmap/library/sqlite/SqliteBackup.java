package org.barmap.library.sqlite;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.time.Clock;
import java.util.Optional;
import java.util.Set;
import org.barmap.library.keep.Closing;
import org.barmap.library.keep.OurFiles;
import org.barmap.library.keep.RefusedFolderException;
import org.barmap.library.keep.Restoring;
import org.barmap.library.picture.FolderPictures;
import org.barmap.library.picture.PictureStore;
import org.barmap.library.sql.SqlLibrary;
import org.barmap.library.sqlite.copy.BackupFile;
import org.barmap.library.sqlite.copy.BackupFile.PutBack;
import org.barmap.library.sqlite.copy.BackupFile.Saved;
import org.barmap.library.sqlite.copy.Leaving;
import org.barmap.library.sqlite.copy.StoreFile;
import org.barmap.library.sqlite.copy.TableCopy;
import org.barmap.library.sqlite.copy.Tables;
import org.barmap.library.sqlite.copy.Unpacking;
import org.jdbi.v3.core.Jdbi;
import org.sqlite.SQLiteDataSource;

/** All of a library in one file, and back, also while another process works on it. */
public final class SqliteBackup {

  private static final String OLDER =
      "these books are of an older barmap; start this one once, then save them";

  private SqliteBackup() {}

  /** Writes a library with its pictures in the folder into one file. */
  public static Saved save(Path folder, Path to, boolean with) throws IOException {
    return save(folder, new FolderPictures(folder.resolve("books")), to, with);
  }

  /**
   * Writes a library into one file; there is all of it or none.
   *
   * @param pictures where they are kept
   * @param with whether the pictures of pages go along
   */
  public static Saved save(Path folder, PictureStore pictures, Path to, boolean with)
      throws IOException {
    Path store = folder.resolve("barmap.db");
    if (!Files.exists(store) || Files.size(store) == 0) {
      throw new RefusedFolderException("there are no books in " + folder);
    }
    return BackupFile.save(new Shelf(folder, store), pictures::read, to, with);
  }

  private static Jdbi at(Path store) {
    return Jdbi.create(url(store));
  }

  private static String url(Path store) {
    return "jdbc:sqlite:" + store.toAbsolutePath() + "?busy_timeout=10000";
  }

  /** A store in its folder, in use or not. */
  private record Shelf(Path folder, Path store) implements BackupFile.Shelf {

    @Override
    public StoreFile copy(Path to, Leaving leaving) throws IOException {
      try (Connection from = DriverManager.getConnection(url(store))) {
        SQLiteDataSource source = new SQLiteDataSource();
        source.setUrl(url(store));
        StartChecks.known(StartChecks.migrations(source), folder);
        if (!Tables.names(from).contains("keeping")) {
          throw new RefusedFolderException(OLDER);
        }
        // all that is read is of the moment of the first row
        from.setAutoCommit(false);
        return StoreFile.make(
            to, StoreFile.version(from), copy -> TableCopy.copy(from, copy, copy, leaving));
      } catch (SQLException e) {
        throw StartChecks.isDamage(e)
            ? StartChecks.damaged(folder, String.valueOf(e.getMessage()))
            : new IOException("the database can't be saved: " + e.getMessage(), e);
      }
    }

    @Override
    public Set<String> named() {
      return at(store)
          .withHandle(h -> Set.copyOf(h.createQuery(SqlLibrary.NAMED).mapTo(String.class).list()));
    }
  }

  /** Puts a library back whose pictures are in the folder. */
  public static PutBack restore(Path file, Path folder, boolean replace, Clock clock)
      throws IOException {
    return restore(file, folder, new FolderPictures(folder.resolve("books")), replace, clock);
  }

  /**
   * Puts a library back, all of it or nothing. What was there is set aside.
   *
   * @param pictures where they are kept
   * @param replace whether it may take the place of books that are there
   * @throws org.barmap.library.keep.BadBackupException when the file is no whole backup
   * @throws RefusedFolderException when there are books, and they may not be replaced
   */
  public static PutBack restore(
      Path file, Path folder, PictureStore pictures, boolean replace, Clock clock)
      throws IOException {
    if (!Files.isRegularFile(file)) {
      throw new NoSuchFileException(file.toString());
    }
    Optional<String> there = content(folder);
    if (there.isPresent() && !replace) {
      throw new RefusedFolderException(
          "there is something in "
              + folder
              + " already ("
              + there.get()
              + "); name another folder with --data, or say --replace: what is there is set aside,"
              + " not deleted");
    }
    Closing.make(folder);
    Unpacking unpacking = new Unpacking(pictures);
    Restoring.Unpacked unpacked = Restoring.unpack(file, folder, "", unpacking, clock);
    Optional<FolderLock> lock = lock(folder);
    if (lock.isEmpty()) {
      return new PutBack(unpacked.books(), unpacked.pictures(), Optional.empty(), true);
    }
    try (FolderLock held = lock.get()) {
      Optional<Path> aside = Restoring.finish(folder, unpacking);
      return new PutBack(
          unpacked.books(), unpacked.pictures(), aside.filter(a -> there.isPresent()), false);
    }
  }

  private static Optional<FolderLock> lock(Path folder) throws IOException {
    Path store = folder.resolve("barmap.db");
    try {
      boolean free =
          !Files.exists(store) || Files.size(store) == 0 || Holder.isFree(at(store), folder);
      return free ? Optional.of(FolderLock.take(folder)) : Optional.empty();
    } catch (RuntimeException damaged) {
      return Optional.of(FolderLock.take(folder));
    } catch (FolderLock.InUseException e) {
      return Optional.empty();
    }
  }

  /** Says what is in a folder that should not be lost; empty when there is nothing. */
  private static Optional<String> content(Path folder) throws IOException {
    Path store = folder.resolve("barmap.db");
    if (!Files.exists(store) || Files.size(store) == 0) {
      return !OurFiles.pictured(folder).isEmpty() ? Optional.of("page pictures") : Optional.empty();
    }
    try {
      int books =
          at(store)
              .withHandle(
                  h ->
                      StartChecks.hasTable(h, "book")
                          ? h.createQuery("select count(*) from book").mapTo(Integer.class).one()
                          : 0);
      if (books == 0) {
        return !OurFiles.pictured(folder).isEmpty()
            ? Optional.of("page pictures")
            : Optional.empty();
      }
      return Optional.of(books == 1 ? "1 book" : books + " books");
    } catch (RuntimeException e) {
      return Optional.of("a damaged database");
    }
  }
}
