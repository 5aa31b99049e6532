package org.barmap.library.sqlite;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.Optional;
import org.barmap.library.WholeFile;
import org.barmap.library.keep.BackupWriter;
import org.barmap.library.keep.BadBackupException;
import org.barmap.library.keep.Closing;
import org.barmap.library.keep.OurFiles;
import org.barmap.library.keep.PictureMark;
import org.barmap.library.keep.RefusedFolderException;
import org.barmap.library.keep.Restoring;
import org.barmap.library.sql.SqlLibrary;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.Jdbi;
import org.sqlite.SQLiteDataSource;

/** All of a library in one file, and back, also while another process works on it. */
public final class SqliteBackup {

  /** A picture may be let go while it is copied; then all is copied anew. */
  private static final int TRIES = 5;

  private static final String OLDER =
      "these books are of an older barmap; start this one once, then save them";

  private SqliteBackup() {}

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
   * @param waits whether it takes its place when the folder is opened next, for it is in use
   */
  public record PutBack(int books, int pictures, Optional<Path> before, boolean waits) {}

  /**
   * Writes a library into one file; there is all of it or none.
   *
   * @param pictures whether the pictures of pages go along
   */
  public static Saved save(Path folder, Path to, boolean pictures) throws IOException {
    Path store = folder.resolve("barmap.db");
    if (!Files.exists(store) || Files.size(store) == 0) {
      throw new RefusedFolderException("there are no books in " + folder);
    }
    Path beside = Optional.ofNullable(to.toAbsolutePath().getParent()).orElse(Path.of("."));
    if (!Files.isDirectory(beside)) {
      throw new NoSuchFileException(beside.toString());
    }
    Path copies = Files.createTempDirectory(beside, ".barmap");
    try {
      Path copy = copies.resolve("barmap.db");
      Path zip = Files.createFile(copies.resolve("backup"), Closing.file(copies));
      for (int i = 1; ; i++) {
        Files.deleteIfExists(copy);
        BackupWriter.Source source = copy(folder, store, copy, pictures);
        BackupWriter.Written written = BackupWriter.write(source, folder.resolve("books"), zip);
        if (i == TRIES || isStillNamed(store, written.gone())) {
          WholeFile.moveInto(zip, to.toAbsolutePath());
          return new Saved(source.books(), written.files(), written.flaws());
        }
      }
    } finally {
      for (String left : List.of("backup", "barmap.db", "barmap.db-wal", "barmap.db-shm")) {
        Files.deleteIfExists(copies.resolve(left));
      }
      Files.deleteIfExists(copies);
    }
  }

  private static Jdbi at(Path store) {
    return Jdbi.create("jdbc:sqlite:" + store.toAbsolutePath() + "?busy_timeout=10000");
  }

  private static BackupWriter.Source copy(Path folder, Path store, Path copy, boolean pictures)
      throws IOException {
    try {
      at(store).useHandle(h -> h.execute("vacuum into ?", copy.toAbsolutePath().toString()));
    } catch (RuntimeException e) {
      Throwable cause = SqliteLibrary.root(e);
      throw StartChecks.isDamage(cause)
          ? StartChecks.damaged(folder, String.valueOf(cause.getMessage()))
          : new IOException("the database can't be saved: " + cause.getMessage(), e);
    }
    return at(copy)
        .withHandle(
            h -> {
              if (!StartChecks.isKept(h)) {
                throw new RefusedFolderException(OLDER);
              }
              Holder.leave(h);
              if (!pictures) {
                withoutPictures(h);
              }
              int books = h.createQuery("select count(*) from book").mapTo(Integer.class).one();
              String version =
                  h.createQuery(
                          "select version from flyway_schema_history"
                              + " order by installed_rank desc limit 1")
                      .mapTo(String.class)
                      .one();
              return new BackupWriter.Source(copy, version, books, pictures, named(h));
            });
  }

  private static void withoutPictures(Handle h) {
    h.execute(
        "update page set state = 'failed', finding = ? where state in ('waiting', 'reading')",
        "It was not read when the backup was made, and came without its picture");
    h.execute("update page set picture = ''");
    h.execute("update upload set open = 0");
  }

  private static List<BackupWriter.Named> named(Handle h) {
    return h.createQuery(SqlLibrary.NAMED + " order by 1").mapTo(String.class).list().stream()
        .map(path -> named(h, path))
        .toList();
  }

  private static BackupWriter.Named named(Handle h, String path) {
    String book = path.substring(0, path.indexOf('/'));
    String of =
        h.createQuery("select title || ', ' || part from book where id = :id")
            .bind("id", book)
            .mapTo(String.class)
            .findOne()
            .orElse(book);
    Optional<PictureMark> mark =
        h.createQuery("select bytes, sha256 from picture where book || '/' || file = :path")
            .bind("path", path)
            .map(
                (row, context) ->
                    new PictureMark(
                        row.getLong("bytes"),
                        Optional.ofNullable(row.getString("sha256")).orElse("")))
            .findOne();
    return new BackupWriter.Named(path, of, mark);
  }

  /** Tells whether the store in use still names all of what was not there. */
  private static boolean isStillNamed(Path store, List<BackupWriter.Named> gone) {
    return gone.isEmpty()
        || at(store)
            .withHandle(h -> h.createQuery(SqlLibrary.NAMED).mapTo(String.class).list())
            .containsAll(gone.stream().map(BackupWriter.Named::path).toList());
  }

  /**
   * Puts a library back, all of it or nothing. What was there is set aside.
   *
   * @param replace whether it may take the place of books that are there
   * @throws BadBackupException when the file is no whole backup
   * @throws RefusedFolderException when there are books, and they may not be replaced
   */
  public static PutBack restore(Path file, Path folder, boolean replace, Clock clock)
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
    Restoring.Unpacked unpacked = Restoring.unpack(file, folder, SqliteBackup::check, clock);
    Optional<FolderLock> lock = lock(folder);
    if (lock.isEmpty()) {
      return new PutBack(unpacked.books(), unpacked.pictures(), Optional.empty(), true);
    }
    try (FolderLock held = lock.get()) {
      Optional<Path> aside = Restoring.finish(folder);
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

  private static void check(Path store) throws IOException {
    SQLiteDataSource source = new SQLiteDataSource();
    source.setUrl("jdbc:sqlite:" + store.toAbsolutePath());
    try {
      StartChecks.whole(Jdbi.create(source), store);
      StartChecks.known(StartChecks.migrations(source), store);
    } catch (RefusedFolderException e) {
      throw new BadBackupException("the backup can't be put back: " + e.getMessage());
    }
  }
}
