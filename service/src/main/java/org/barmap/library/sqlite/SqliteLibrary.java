package org.barmap.library.sqlite;

import com.zaxxer.hikari.HikariConfig;
import com.zaxxer.hikari.HikariDataSource;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import org.barmap.library.Books;
import org.barmap.library.Changes;
import org.barmap.library.Drafts;
import org.barmap.library.Jobs;
import org.barmap.library.Library;
import org.barmap.library.Pages;
import org.barmap.library.Readings;
import org.barmap.library.Replies;
import org.barmap.library.Seconds;
import org.flywaydb.core.Flyway;
import org.jdbi.v3.core.Jdbi;
import org.sqlite.SQLiteConfig;
import org.sqlite.SQLiteDataSource;

/** A library in one folder: an SQLite file, and the page pictures beside it. */
public final class SqliteLibrary implements Library {

  /** Below it the store could not even keep its own notes. */
  private static final long LEAST_SPACE = 4L << 20;

  private final HikariDataSource pool;
  private final FolderLock lock;
  private final Removal removal;
  private final SqliteBooks books;
  private final SqlitePages pages;
  private final SqliteDrafts drafts;
  private final SqliteReadings readings;
  private final SqliteChanges changes;
  private final SqliteJobs jobs;
  private final SqliteSeconds seconds;
  private final SqliteReplies replies;

  private SqliteLibrary(Path folder, HikariDataSource pool, FolderLock lock, Clock clock) {
    this.pool = pool;
    this.lock = lock;
    Jdbi jdbi = Rows.mapped(Jdbi.create(pool));
    removal = new Removal(jdbi, folder, clock);
    drafts = new SqliteDrafts(jdbi, clock, removal);
    books = new SqliteBooks(jdbi, clock, drafts, removal);
    pages = new SqlitePages(jdbi, folder, drafts, removal);
    changes = new SqliteChanges(jdbi, clock);
    jobs = new SqliteJobs(jdbi, folder, clock);
    seconds = new SqliteSeconds(jdbi);
    replies = new SqliteReplies(jdbi, clock);
    readings = new SqliteReadings(jdbi, drafts);
  }

  /**
   * Opens the library in a folder, made if it is not there; an older one is brought up to date.
   *
   * @throws IOException when the folder or the store in it can't be used; the message says what to
   *     do
   */
  public static SqliteLibrary open(Path folder, Clock clock) throws IOException {
    HikariDataSource pool = null;
    FolderLock lock = null;
    try {
      Files.createDirectories(folder.resolve("books"));
      Files.createDirectories(folder.resolve("cache"));
      if (Files.getFileStore(folder).getUsableSpace() < LEAST_SPACE) {
        throw new IOException("the disk is full");
      }
      lock = FolderLock.take(folder);
      pool = pool(folder.resolve("barmap.db"));
      Flyway.configure(SqliteLibrary.class.getClassLoader())
          .dataSource(pool)
          .locations("classpath:org/barmap/library/migration")
          .load()
          .migrate();
      overwriteOnce(pool);
      SqliteLibrary library = new SqliteLibrary(folder, pool, lock, clock);
      library.sweepAtStart();
      return library;
    } catch (RuntimeException | IOException e) {
      if (pool != null) {
        pool.close();
      }
      if (lock != null) {
        lock.close();
      }
      throw new IOException(
          "the data folder "
              + folder
              + " can't be used ("
              + reason(e)
              + "); choose another one or make room",
          e);
    }
  }

  /** Writes an older store anew: what was deleted from it was not overwritten at that time. */
  private static void overwriteOnce(HikariDataSource pool) {
    Jdbi.create(pool)
        .useHandle(
            h -> {
              int done =
                  h.createQuery("pragma user_version").map((row, context) -> row.getInt(1)).one();
              if (done == 0) {
                h.execute("vacuum");
                h.execute("pragma user_version = 1");
              }
            });
  }

  private static String reason(Throwable e) {
    Throwable cause = e;
    while (cause.getCause() != null && !String.valueOf(cause.getMessage()).contains("in use")) {
      cause = cause.getCause();
    }
    String text = String.valueOf(cause.getMessage());
    return text.lines().findFirst().orElse(cause.getClass().getSimpleName());
  }

  private static HikariDataSource pool(Path file) {
    SQLiteConfig sqlite = new SQLiteConfig();
    sqlite.setJournalMode(SQLiteConfig.JournalMode.WAL);
    // FULL: a commit that was acknowledged is still there after a power cut
    sqlite.setSynchronous(SQLiteConfig.SynchronousMode.FULL);
    sqlite.enforceForeignKeys(true);
    sqlite.setBusyTimeout(10_000);
    // what is deleted is overwritten: of a rented page nothing stays in the file
    sqlite.setPragma(SQLiteConfig.Pragma.SECURE_DELETE, "true");
    sqlite.setTransactionMode(SQLiteConfig.TransactionMode.IMMEDIATE);
    SQLiteDataSource source = new SQLiteDataSource(sqlite);
    source.setUrl("jdbc:sqlite:" + file.toAbsolutePath());
    HikariConfig config = new HikariConfig();
    config.setDataSource(source);
    config.setMaximumPoolSize(4);
    config.setMinimumIdle(1);
    config.setConnectionTimeout(10_000);
    config.setInitializationFailTimeout(1);
    config.setPoolName("barmap");
    return new HikariDataSource(config);
  }

  /** Takes away files that a kill left behind: half-written parts and pictures of no page. */
  private void sweepAtStart() {
    removal.atStart();
  }

  @Override
  public void sweep() {
    removal.sweep();
  }

  @Override
  public void sweepDaily() {
    removal.daily();
  }

  @Override
  public Books books() {
    return books;
  }

  @Override
  public Pages pages() {
    return pages;
  }

  @Override
  public Drafts drafts() {
    return drafts;
  }

  @Override
  public Readings readings() {
    return readings;
  }

  @Override
  public Changes changes() {
    return changes;
  }

  @Override
  public Jobs jobs() {
    return jobs;
  }

  @Override
  public Seconds seconds() {
    return seconds;
  }

  @Override
  public Replies replies() {
    return replies;
  }

  @Override
  public void close() {
    pool.close();
    lock.close();
  }
}
