package org.barmap.library.sql;

import com.zaxxer.hikari.HikariPoolMXBean;
import java.nio.file.Path;
import java.time.Clock;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.barmap.library.Books;
import org.barmap.library.Changes;
import org.barmap.library.Drafts;
import org.barmap.library.Jobs;
import org.barmap.library.Library;
import org.barmap.library.Pages;
import org.barmap.library.Readings;
import org.barmap.library.Replies;
import org.barmap.library.Seconds;
import org.barmap.library.feed.Feed;
import org.barmap.library.keep.Keeping;
import org.barmap.library.keep.OurFiles;
import org.barmap.library.keep.SetAside;
import org.barmap.library.picture.PictureStore;
import org.barmap.library.sql.feed.SqlFeed;
import org.barmap.library.sql.turn.SqlTurns;
import org.barmap.library.sql.turn.TurnClock;
import org.barmap.library.turn.Turns;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.Jdbi;

/** A library in a database, with the page pictures in a folder; which database, others say. */
public abstract class SqlLibrary implements Library {

  /** The files in use below the folder of books; a new kind of file is named here. */
  public static final String NAMED =
      """
      select book || '/' || picture from page where picture <> ''
      union select j.book || '/' || u.file from upload u join job j on j.id = u.job where u.open = 1
      union select book || '/' || file from second_reading
      """;

  /** Says since when only who has the data folder's key registers web hooks. */
  private static final String OF_OWNER = "hooks-of-owner";

  private final Path folder;
  private final PictureStore pictures;
  private final Removal removal;
  private final SqlBooks books;
  private final SqlPages pages;
  private final SqlDrafts drafts;
  private final SqlReadings readings;
  private final SqlChanges changes;
  private final SqlTurns turns;
  private final SqlJobs jobs;
  private final SqlSeconds seconds;
  private final SqlReplies replies;
  private final SqlKeeping keeping;
  private final SqlFeed feed;

  /**
   * Makes it.
   *
   * @param store told of our records by {@link Rows#mapped}
   * @param folder where pictures are worked on
   * @param pictures where they are kept; closed with the library
   */
  protected SqlLibrary(Store store, Path folder, PictureStore pictures, Clock clock) {
    this.folder = folder;
    this.pictures = pictures;
    SetAside setAside = new SetAside(folder, clock);
    removal = new Removal(store, folder, pictures, clock, setAside);
    feed = new SqlFeed(store.jdbi(), clock, new FeedShelf(store));
    replies = new SqlReplies(store.jdbi(), clock);
    drafts = new SqlDrafts(store, clock, removal, feed, replies);
    turns =
        new SqlTurns(store.source(), store.pace(), clock(store, clock), new SqlJobs.Open(store));
    books = new SqlBooks(store, clock, drafts, removal, feed, turns, replies);
    SqlJobs.Row row = new SqlJobs.Row(turns, clock);
    pages = new SqlPages(store, folder, pictures, drafts, removal, row);
    changes = new SqlChanges(store, clock, feed, replies);
    jobs = new SqlJobs(store, pages, row);
    seconds = new SqlSeconds(store.jdbi());
    readings = new SqlReadings(store, drafts);
    keeping = new SqlKeeping(store, folder, pictures, removal, books, setAside);
    doubtHooks(store, clock);
  }

  /** Once, in a store whose hooks may be of guests. */
  private void doubtHooks(Store store, Clock clock) {
    int off =
        store
            .jdbi()
            .inTransaction(
                h -> {
                  store.hold(h, OF_OWNER);
                  if (Keys.find(h, OF_OWNER).isPresent()) {
                    return 0;
                  }
                  Keys.set(h, OF_OWNER, Optional.of(clock.instant().toString()));
                  return feed.doubtHooks(h);
                });
    if (off > 0) {
      keeping.say(
          (off == 1 ? "A web hook of a book is" : off + " web hooks of books are")
              + " off since this start: an earlier barmap let guests register them. Turn on what is"
              + " yours, on the page of its book.");
    }
  }

  private static TurnClock clock(Store store, Clock clock) {
    TurnClock.Source source =
        new TurnClock.Source() {
          @Override
          public long millis() {
            return store.millis(clock);
          }

          @Override
          public long millis(Handle h) {
            return store.millis(h, clock);
          }

          @Override
          public boolean goOnFrom(long millis) {
            return store.goOnFrom(millis, clock);
          }
        };
    return new TurnClock(source, store.pace().trusted());
  }

  /** Ends what is still at work; the store can be closed then. */
  protected final void rest() {
    turns.close();
  }

  /**
   * Begins while nothing else is at work: says what was done and looks through the folder.
   *
   * @param wasOpen whether other accounts could look into the folder
   * @param before where the books are in whose place a backup was put
   */
  protected final void begin(boolean wasOpen, Optional<Path> before) {
    if (wasOpen) {
      say("The data folder was open to other accounts of this machine; it is closed to them now.");
    }
    jobs.begin();
    removal.atStart();
    keeping.atStart();
    before.ifPresent(
        old ->
            say(
                "A backup was put back. The books that were here before are in "
                    + folder.relativize(old)
                    + "."));
  }

  /**
   * Returns the folders of books with pictures when the store knows none of them: it belongs to
   * other books.
   */
  protected static List<Path> strangers(Jdbi jdbi, Path folder) {
    Set<String> known =
        new HashSet<>(
            jdbi.withHandle(
                h ->
                    h.createQuery("select id from book union select file from doomed")
                        .mapTo(String.class)
                        .list()));
    List<Path> books = OurFiles.pictured(folder);
    return books.stream().noneMatch(b -> known.contains(OurFiles.name(b))) ? books : List.of();
  }

  /** Returns how the connections of a pool are. */
  protected static Connections connections(HikariPoolMXBean now, int most) {
    return new Connections(
        now.getActiveConnections(),
        now.getIdleConnections(),
        now.getThreadsAwaitingConnection(),
        most);
  }

  /** Deletes copies of pictures that were removed elsewhere; others may be at work. */
  protected final void dropCopies() {
    keeping.dropCopies();
  }

  /** Adds a sentence that a person should read. */
  protected final void say(String notice) {
    keeping.say(notice);
  }

  @Override
  public void close() {
    pictures.close();
  }

  @Override
  public void sweep() {
    removal.sweep();
  }

  @Override
  public void sweep(String book) {
    removal.sweep(book);
  }

  @Override
  public void sweepDaily() {
    removal.daily();
  }

  @Override
  public Keeping keeping() {
    return keeping;
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
  public Turns turns() {
    return turns;
  }

  @Override
  public Seconds seconds() {
    return seconds;
  }

  @Override
  public Feed feed() {
    return feed;
  }

  @Override
  public Replies replies() {
    return replies;
  }
}
