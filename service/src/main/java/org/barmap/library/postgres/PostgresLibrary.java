package org.barmap.library.postgres;

import com.zaxxer.hikari.HikariDataSource;
import java.io.IOException;
import java.nio.file.Path;
import java.sql.SQLException;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.library.keep.BadBackupException;
import org.barmap.library.keep.Closing;
import org.barmap.library.keep.RefusedFolderException;
import org.barmap.library.keep.Restoring;
import org.barmap.library.live.Signals;
import org.barmap.library.picture.FolderPictures;
import org.barmap.library.picture.PictureStore;
import org.barmap.library.sql.Migrations;
import org.barmap.library.sql.SqlLibrary;
import org.barmap.library.sqlite.copy.Unpacking;
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
      presence = Presence.come(ways.patient(), store.jdbi());
      boolean alone = presence.wasAlone();
      ready(store.jdbi(), ways, alone);
      boolean waits = Restoring.isWaiting(folder);
      List<String> notices = new ArrayList<>();
      Optional<Path> before = alone ? putBack(folder, ways, pictures, notices) : Optional.empty();
      fitting(store.jdbi(), folder, address);
      PostgresLibrary library = new PostgresLibrary(pool, store, presence, folder, pictures, clock);
      if (alone) {
        library.begin(wasOpen, before);
      } else {
        library.dropCopies();
        if (waits) {
          library.say(
              "A backup waits to be put back: it takes its place at the first start after every"
                  + " barmap on this database has ended.");
        }
      }
      notices.forEach(library::say);
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

  /** Gives a backup that waits its place. */
  private static Optional<Path> putBack(
      Path folder, Ways ways, PictureStore pictures, List<String> notices) throws IOException {
    try {
      return Restoring.finish(folder, new Swapping(ways), new Unpacking(pictures));
    } catch (BadBackupException e) {
      notices.add("Nothing was put back: " + e.getMessage() + ".");
      return Optional.empty();
    }
  }

  /** Brings the tables up to date, or makes them; not under an older program that works on them. */
  static void ready(Jdbi jdbi, Ways ways, boolean alone) throws RefusedFolderException {
    Migrations migrations = checked(jdbi, ways);
    if (!alone && migrations.isOlder()) {
      throw new RefusedFolderException(
          "the database "
              + ways.address()
              + " is of an older barmap, and one is at work on it: end every barmap on it, then start"
              + " this one");
    }
    migrations.run();
  }

  /** Refuses a database that is not for this program; nothing is changed in it. */
  static Migrations checked(Jdbi jdbi, Ways ways) throws RefusedFolderException {
    encoded(jdbi, ways.address());
    Migrations migrations = new Migrations(ways.patient(), "postgres");
    known(migrations, ways.address());
    return migrations;
  }

  /** Refuses a database of a later program. */
  static void known(Migrations migrations, DatabaseAddress address) throws RefusedFolderException {
    Optional<String> newer = migrations.newer();
    if (newer.isPresent()) {
      throw new RefusedFolderException("the database " + address + " " + newer.get());
    }
  }

  static IOException explained(DatabaseAddress address, Exception e) {
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
    List<Path> books = strangers(jdbi, folder);
    if (!books.isEmpty()) {
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

  @Override
  public Connections connections() {
    return connections(pool.getHikariPoolMXBean(), pool.getMaximumPoolSize());
  }

  @Override
  public Signals signals() {
    return presence;
  }

  @Override
  public void close() {
    rest();
    presence.close();
    pool.close();
    super.close();
  }
}
