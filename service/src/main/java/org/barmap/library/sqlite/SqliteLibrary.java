package org.barmap.library.sqlite;

import com.zaxxer.hikari.HikariDataSource;
import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.Optional;
import org.barmap.library.keep.Closing;
import org.barmap.library.keep.RefusedFolderException;
import org.barmap.library.keep.Restoring;
import org.barmap.library.picture.FolderPictures;
import org.barmap.library.picture.PictureStore;
import org.barmap.library.sql.Migrations;
import org.barmap.library.sql.SqlLibrary;
import org.barmap.library.sqlite.copy.Unpacking;
import org.jdbi.v3.core.Jdbi;

/** A library in one folder: an SQLite file, and the page pictures beside it. */
public final class SqliteLibrary extends SqlLibrary {

  /** Below it the store could not even keep its own notes. */
  private static final long LEAST_SPACE = 4L << 20;

  /** Marks a store whose deleted parts are overwritten and can be given back. */
  private static final int WRITTEN_ANEW = 2;

  private static final System.Logger LOG = System.getLogger(SqliteLibrary.class.getName());

  private final HikariDataSource pool;
  private final Jdbi jdbi;
  private final FolderLock lock;

  private SqliteLibrary(
      SqliteStore store,
      PictureStore pictures,
      HikariDataSource pool,
      FolderLock lock,
      Clock clock) {
    super(store, store.folder(), pictures, clock);
    this.jdbi = store.jdbi();
    this.pool = pool;
    this.lock = lock;
  }

  /**
   * Opens the library in a folder, made if it is not there; an older one is brought up to date.
   *
   * @throws RefusedFolderException when the folder should not be opened as it is; nothing was
   *     changed in it
   * @throws IOException when the folder or the store in it can't be used; the message says what to
   *     do
   */
  public static SqliteLibrary open(Path folder, Clock clock) throws IOException {
    return open(folder, new FolderPictures(folder.resolve("books")), clock);
  }

  /** Opens the library in a folder, with its pictures kept elsewhere; see the other one. */
  public static SqliteLibrary open(Path folder, PictureStore pictures, Clock clock)
      throws IOException {
    HikariDataSource pool = null;
    FolderLock lock = null;
    try {
      Path store = folder.resolve("barmap.db");
      Closing.make(folder);
      if (Files.getFileStore(folder).getUsableSpace() < LEAST_SPACE) {
        throw new IOException("the disk is full");
      }
      lock = FolderLock.take(folder);
      Optional<Path> before = Restoring.finish(folder, new Unpacking(pictures));
      StartChecks.pictured(folder, store);
      Closing.make(folder);
      boolean wasOpen = Closing.close(folder);
      if (!Files.exists(store)) {
        Files.createFile(store, Closing.file(folder));
      }
      pool = SqliteStore.pool(store);
      migrate(pool, folder);
      SqliteLibrary library =
          new SqliteLibrary(new SqliteStore(pool, folder), pictures, pool, lock, clock);
      library.begin(wasOpen, before);
      return library;
    } catch (RuntimeException | IOException e) {
      if (pool != null) {
        pool.close();
      }
      if (lock != null) {
        lock.close();
      }
      throw explained(folder, e);
    }
  }

  private static IOException explained(Path folder, Exception e) {
    if (e instanceof RefusedFolderException refused) {
      return refused;
    }
    Throwable cause = root(e);
    if (String.valueOf(cause.getMessage()).contains("native library")) {
      return new RefusedFolderException(
          "the library for the database can't be loaded from "
              + System.getProperty("java.io.tmpdir")
              + " (a folder from which no program may run?); name a folder where one may with"
              + " JAVA_TOOL_OPTIONS=-Dbarmap.natives=FOLDER");
    }
    if (StartChecks.isDamage(cause)) {
      return StartChecks.damaged(folder, String.valueOf(cause.getMessage()));
    }
    return new IOException(
        "the data folder "
            + folder
            + " can't be used ("
            + reason(cause)
            + "); choose another one or make room",
        e);
  }

  /** Looks whether the store may be opened, and brings it up to date. */
  private static void migrate(HikariDataSource pool, Path folder) throws IOException {
    Jdbi jdbi = Jdbi.create(pool);
    if (!Holder.isFree(jdbi, folder)) {
      throw new FolderLock.InUseException();
    }
    StartChecks.whole(jdbi, folder);
    Migrations migrations = StartChecks.migrations(pool);
    StartChecks.known(migrations, folder);
    migrations.run();
    StartChecks.fitting(strangers(jdbi, folder), folder);
    if (!Holder.take(jdbi, folder)) {
      throw new FolderLock.InUseException();
    }
    writeAnew(jdbi);
  }

  /**
   * Writes an older store anew, once: what was deleted from it was not overwritten at that time,
   * and its space could not be given back piece by piece.
   */
  private static void writeAnew(Jdbi jdbi) {
    try {
      jdbi.useHandle(
          h -> {
            int done =
                h.createQuery("pragma user_version").map((row, context) -> row.getInt(1)).one();
            if (done < WRITTEN_ANEW) {
              h.execute("pragma auto_vacuum = incremental");
              h.execute("vacuum");
              h.execute("pragma user_version = " + WRITTEN_ANEW);
            }
          });
    } catch (RuntimeException e) {
      // it needs as much room as the store has; the next start tries again
      LOG.log(System.Logger.Level.WARNING, "the store could not be written anew: {0}", root(e));
    }
  }

  /** Returns what began it all. */
  static Throwable root(Throwable e) {
    Throwable cause = e;
    while (cause.getCause() != null && !String.valueOf(cause.getMessage()).contains("in use")) {
      cause = cause.getCause();
    }
    return cause;
  }

  private static String reason(Throwable cause) {
    if (cause instanceof AccessDeniedException denied) {
      return denied.getFile() + " may not be written to";
    }
    String text = String.valueOf(cause.getMessage());
    return text.lines().findFirst().orElse(cause.getClass().getSimpleName());
  }

  @Override
  public Connections connections() {
    return connections(pool.getHikariPoolMXBean(), pool.getMaximumPoolSize());
  }

  @Override
  public void close() {
    rest();
    if (!pool.isClosed()) {
      leave();
    }
    pool.close();
    lock.close();
    super.close();
  }

  private void leave() {
    try {
      Holder.leave(jdbi);
    } catch (RuntimeException e) {
      // on a full disk; the next start sees that this process is gone
      LOG.log(System.Logger.Level.INFO, "the store keeps who had it open: {0}", root(e));
    }
  }
}
