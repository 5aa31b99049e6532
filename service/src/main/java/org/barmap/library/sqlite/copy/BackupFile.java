package org.barmap.library.sqlite.copy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.barmap.library.WholeFile;
import org.barmap.library.keep.BackupWriter;
import org.barmap.library.keep.Closing;
import org.barmap.library.keep.OwnFolder;

/** All of a library in one file, {@code barbackup/1}, from either database. */
public final class BackupFile {

  /** A picture may be let go while it is copied; then all is copied anew. */
  private static final int TRIES = 5;

  private static final String PREFIX = ".barmap-backup-";

  private BackupFile() {}

  /** The database of a library, which others may be working on. */
  public interface Shelf {

    /** Copies what is there at one moment into a new file. */
    StoreFile copy(Path to, Leaving leaving) throws IOException;

    /** Returns the files that it names now. */
    Set<String> named() throws IOException;
  }

  /**
   * What is in a backup.
   *
   * @param books how many, those in the bin too
   * @param pictures how many files
   * @param flaws pictures that are missing or damaged, one sentence each
   */
  public record Saved(int books, int pictures, List<String> flaws) {

    /** Takes a defensive copy. */
    public Saved {
      flaws = List.copyOf(flaws);
    }
  }

  /**
   * What came of putting one back.
   *
   * @param before where the books are that were there; empty when there were none
   * @param waits whether it takes its place when the library is opened next, for it is in use
   */
  public record PutBack(int books, int pictures, Optional<Path> before, boolean waits) {}

  /**
   * Writes a library into one file; there is all of it or none.
   *
   * @param with whether the pictures of pages go along
   */
  public static Saved save(Shelf shelf, BackupWriter.Pictures pictures, Path to, boolean with)
      throws IOException {
    Path file = Files.isSymbolicLink(to) && Files.exists(to) ? to.toRealPath() : to;
    if (Files.exists(file, LinkOption.NOFOLLOW_LINKS)
        && !Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS)) {
      throw new IOException(to + " is no plain file; name another one");
    }
    Path beside = Optional.ofNullable(file.toAbsolutePath().getParent()).orElse(Path.of("."));
    if (!Files.isDirectory(beside)) {
      throw new NoSuchFileException(beside.toString());
    }
    OwnFolder.sweep(beside, PREFIX);
    try (OwnFolder copies = OwnFolder.make(beside, PREFIX)) {
      Path copy = copies.path().resolve("barmap.db");
      Path zip = Files.createFile(copies.path().resolve("backup"), Closing.file(copies.path()));
      for (int i = 1; ; i++) {
        Files.deleteIfExists(copy);
        StoreFile store = shelf.copy(copy, Leaving.ofBackup(with));
        BackupWriter.Source source = source(store, with);
        BackupWriter.Written written = BackupWriter.write(source, pictures, zip);
        if (i == TRIES || isStillNamed(shelf, written.gone())) {
          WholeFile.moveInto(zip, file.toAbsolutePath());
          return new Saved(source.books(), written.files(), written.flaws());
        }
      }
    } catch (SQLException e) {
      throw new IOException("the database can't be saved: " + e.getMessage(), e);
    }
  }

  private static BackupWriter.Source source(StoreFile store, boolean with) throws SQLException {
    try (Connection connection = store.connect()) {
      return new BackupWriter.Source(
          store.file(), StoreFile.version(connection), store.books(), with, store.named());
    }
  }

  /** Tells whether the store in use still names all of what was not there. */
  private static boolean isStillNamed(Shelf shelf, List<BackupWriter.Named> gone)
      throws IOException {
    return gone.isEmpty()
        || shelf.named().containsAll(gone.stream().map(BackupWriter.Named::path).toList());
  }
}
