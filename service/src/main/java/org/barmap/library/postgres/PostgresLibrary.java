package org.barmap.library.postgres;

import com.zaxxer.hikari.HikariDataSource;
import com.zaxxer.hikari.HikariPoolMXBean;
import java.io.IOException;
import java.nio.file.Path;
import java.sql.SQLException;
import java.time.Clock;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.barmap.library.keep.Closing;
import org.barmap.library.keep.OurFiles;
import org.barmap.library.keep.RefusedFolderException;
import org.barmap.library.live.Signals;
import org.barmap.library.picture.FolderPictures;
import org.barmap.library.picture.PictureStore;
import org.barmap.library.sql.Migrations;
import org.barmap.library.sql.SqlLibrary;
import org.jdbi.v3.core.Jdbi;

/**
 * A library in a PostgreSQL database, its page pictures in a folder; as many processes as wanted
 * have both open at the same time.
 */
public final class PostgresLibrary extends SqlLibrary {

  private final HikariDataSource pool;
  private final Presence presence;

  private PostgresLibrary(
      HikariDataSource pool,
      PostgresStore store,
      Presence presence,
      Path folder,
      PictureStore pictures,
      Clock clock) {
    super(store, folder, pictures, clock);
    this.pool = pool;
    this.presence = presence;
  }

  /**
   * Opens the library; an older database is brought up to date, an empty one gets its tables.
   *
   * @throws RefusedFolderException when the database should not be opened as it is; nothing was
   *     changed then
   * @throws IOException when it or the folder can't be used; the message says what to do and holds
   *     no password
   */
  public static PostgresLibrary open(DatabaseAddress address, Path folder, Clock clock)
      throws IOException {
    return open(address, folder, new FolderPictures(folder.resolve("books")), clock);
  }

  /** Opens the library, with its pictures kept elsewhere; see the other one. */
  public static PostgresLibrary open(
      DatabaseAddress address, Path folder, PictureStore pictures, Clock clock) throws IOException {
    HikariDataSource pool = null;
    Presence presence = null;
    try {
      Closing.make(folder);
      boolean wasOpen = Closing.close(folder);
      Ways ways = new Ways(address);
      pool = ways.pool();
      PostgresStore store = new PostgresStore(pool);
      encoded(store.jdbi(), address);
      presence = Presence.come(ways.patient(), store.jdbi());
      Migrations migrations = new Migrations(ways.patient(), "postgres");
      Optional<String> newer = migrations.newer();
      if (newer.isPresent()) {
        throw new RefusedFolderException("the database " + address + " " + newer.get());
      }
      migrations.run();
      fitting(store.jdbi(), folder, address);
      PostgresLibrary library = new PostgresLibrary(pool, store, presence, folder, pictures, clock);
      if (presence.wasAlone()) {
        library.begin(wasOpen);
      } else {
        library.dropCopies();
      }
      presence.stay();
      return library;
    } catch (RuntimeException | IOException | SQLException e) {
      if (presence != null) {
        presence.close();
      }
      if (pool != null) {
        pool.close();
      }
      throw explained(address, e);
    }
  }

  private static IOException explained(DatabaseAddress address, Exception e) {
    if (e instanceof RefusedFolderException refused) {
      return refused;
    }
    Throwable cause = e;
    while (cause.getCause() != null && !(cause instanceof SQLException)) {
      cause = cause.getCause();
    }
    String text = String.valueOf(cause.getMessage());
    return new IOException(
        "the database "
            + address
            + " can't be used ("
            + text.lines().findFirst().orElse(cause.getClass().getSimpleName())
            + ")",
        e);
  }

  /** Every title can be kept in UTF-8 only. */
  private static void encoded(Jdbi jdbi, DatabaseAddress address) throws RefusedFolderException {
    String encoding =
        jdbi.withHandle(h -> h.createQuery("show server_encoding").mapTo(String.class).one());
    if (!encoding.equals("UTF8")) {
      throw new RefusedFolderException(
          "the database " + address + " keeps its text as " + encoding + "; make one with UTF8");
    }
  }

  /** Refuses a database that knows none of the books whose pictures are in the folder. */
  private static void fitting(Jdbi jdbi, Path folder, DatabaseAddress address)
      throws RefusedFolderException {
    Set<String> known =
        new HashSet<>(
            jdbi.withHandle(
                h ->
                    h.createQuery("select id from book union select file from doomed")
                        .mapTo(String.class)
                        .list()));
    List<Path> books = OurFiles.pictured(folder);
    if (!books.isEmpty() && books.stream().noneMatch(b -> known.contains(OurFiles.name(b)))) {
      throw new RefusedFolderException(
          "the database "
              + address
              + " knows none of the books whose page pictures are in "
              + folder
              + " ("
              + books.size()
              + "). Name the right database, or another folder with --data");
    }
  }

  /** Looks through the folder while no other process is at work. */
  private void begin(boolean wasOpen) {
    if (wasOpen) {
      say("The data folder was open to other accounts of this machine; it is closed to them now.");
    }
    lookThrough();
  }

  @Override
  public Connections connections() {
    HikariPoolMXBean now = pool.getHikariPoolMXBean();
    return new Connections(
        now.getActiveConnections(),
        now.getIdleConnections(),
        now.getThreadsAwaitingConnection(),
        pool.getMaximumPoolSize());
  }

  @Override
  public Signals signals() {
    return presence;
  }

  @Override
  public void close() {
    presence.close();
    pool.close();
    super.close();
  }
}
