package org.barmap.library.sqlite;

import com.zaxxer.hikari.HikariConfig;
import com.zaxxer.hikari.HikariDataSource;
import java.nio.file.Path;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Clock;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.ReentrantLock;
import javax.sql.DataSource;
import org.barmap.library.keep.Kept;
import org.barmap.library.keep.OurFiles;
import org.barmap.library.keep.PictureMark;
import org.barmap.library.sql.Rows;
import org.barmap.library.sql.Store;
import org.barmap.library.sql.turn.Pace;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.HandleCallback;
import org.jdbi.v3.core.Jdbi;
import org.sqlite.SQLiteConfig;
import org.sqlite.SQLiteDataSource;

/**
 * An SQLite file in a folder: one writer at a time, whatever it writes.
 *
 * @param row in which those of this process wait who change books, the first one first
 */
record SqliteStore(Jdbi jdbi, DataSource source, Path folder, ReentrantLock row) implements Store {

  private static final System.Logger LOG = System.getLogger(SqliteStore.class.getName());

  /** So long somebody waits who wants to write. */
  private static final int BUSY_MILLIS = 10_000;

  SqliteStore(HikariDataSource pool, Path folder) {
    this(Rows.mapped(Jdbi.create(pool)), pool, folder, new ReentrantLock(true));
  }

  static HikariDataSource pool(Path file) {
    SQLiteConfig sqlite = new SQLiteConfig();
    sqlite.setJournalMode(SQLiteConfig.JournalMode.WAL);
    // FULL: a commit that was acknowledged is still there after a power cut
    sqlite.setSynchronous(SQLiteConfig.SynchronousMode.FULL);
    sqlite.enforceForeignKeys(true);
    sqlite.setBusyTimeout(BUSY_MILLIS);
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

  @Override
  public Pace pace() {
    return Pace.ALONE;
  }

  @Override
  public <T> T view(HandleCallback<T, RuntimeException> work) {
    return jdbi.withHandle(work);
  }

  @Override
  public <T> T edit(String book, HandleCallback<T, RuntimeException> work) {
    boolean next = inRow();
    try {
      return jdbi.inTransaction(work);
    } finally {
      if (next) {
        row.unlock();
      }
    }
  }

  /**
   * Waits for its turn: who waits for the file itself looks every now and then whether it is free,
   * and others come first.
   *
   * @return whether it has to be given on
   */
  private boolean inRow() {
    try {
      return row.tryLock(BUSY_MILLIS, TimeUnit.MILLISECONDS);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return false;
    }
  }

  @Override
  public void hold(Handle h, String name) {
    // a transaction that writes holds the whole file
  }

  @Override
  public long millis(Handle h, Clock clock) {
    return clock.millis();
  }

  @Override
  public long millis(Clock clock) {
    return clock.millis();
  }

  @Override
  public void shrink() {
    jdbi.useHandle(
        h -> {
          try (Statement all = h.getConnection().createStatement()) {
            // as an update it is run to its end; as a query it frees one page
            all.executeUpdate("pragma incremental_vacuum");
          } catch (SQLException e) {
            // on a full disk; the space is free in the store and used again
            LOG.log(System.Logger.Level.WARNING, "the store stays as large as it was: {0}", e);
          }
        });
  }

  /** Empties the write-ahead log into the store: it still holds what was deleted. */
  @Override
  public void forget() {
    int busy =
        jdbi.withHandle(
            h ->
                h.createQuery("pragma wal_checkpoint(truncate)")
                    .map((row, context) -> row.getInt(1))
                    .one());
    if (busy != 0) {
      LOG.log(
          System.Logger.Level.INFO,
          "the write-ahead log is in use and is emptied at the next sweep");
    }
  }

  @Override
  public Kept.Amount size() {
    List<Path> files =
        OurFiles.list(folder).stream()
            .filter(f -> OurFiles.name(f).startsWith("barmap.db"))
            .toList();
    long bytes =
        files.stream()
            .map(PictureMark::sizeOf)
            .flatMap(Optional::stream)
            .mapToLong(PictureMark::bytes)
            .sum();
    return new Kept.Amount(files.size(), bytes);
  }
}
