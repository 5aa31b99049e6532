package org.barmap.library.sql;

import java.io.IOException;
import java.nio.file.DirectoryNotEmptyException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.function.Consumer;
import org.barmap.library.keep.Newest;
import org.barmap.library.keep.OurFiles;
import org.barmap.library.keep.SetAside;
import org.barmap.library.picture.PictureStore;
import org.jdbi.v3.core.Handle;

/**
 * Takes off the disk what a person let go: rented pages must go then, and nothing else may.
 *
 * <p>What goes is noted in the store ({@code doomed}) together with the step that lets it go, and
 * deleted afterwards; after a kill, or where it can't be deleted, it is tried again at the next
 * sweep. What is deleted from the store itself is overwritten there ({@code secure_delete}) and its
 * space given back; its traces in the write-ahead log go with {@link #forget}.
 */
final class Removal {

  private static final System.Logger LOG = System.getLogger(Removal.class.getName());
  private static final Duration EVERY = Duration.ofDays(1);

  /** The name that says after how many days in the bin a book goes. */
  static final String BIN_DAYS = "bin-days";

  private final Store store;
  private final Path books;
  private final Path cache;
  private final PictureStore pictures;
  private final Clock clock;
  private final SetAside setAside;

  /**
   * A reading sweeps for its book when it ends, a request lasts minutes: who still writes for a
   * removed book, does so for one of the last.
   */
  private static final int MOST_PURGED = 100;

  /** Books that were removed while this program runs: a reading may still have written for them. */
  private final Newest<Boolean> purged = new Newest<>(MOST_PURGED);

  /** Who holds something of books in memory; told of each that is removed for good. */
  private final List<Consumer<String>> told = new CopyOnWriteArrayList<>();

  private Instant next = Instant.MIN;

  Removal(Store store, Path root, PictureStore pictures, Clock clock, SetAside setAside) {
    this.pictures = pictures;
    this.store = store;
    this.books = root.resolve("books");
    this.cache = root.resolve("cache");
    this.clock = clock;
    this.setAside = setAside;
  }

  /** Has somebody told of each book that is removed for good, by this process. */
  void tell(Consumer<String> whom) {
    told.add(whom);
  }

  /** Sweeps while nothing else is at work, so that also half-written files can be told. */
  void atStart() {
    purge();
    sweep();
    OurFiles.list(cache).stream().filter(OurFiles::isPassing).forEach(Removal::deleteScaled);
  }

  /** Sweeps when the last sweep was a day ago, beside whatever else is at work. */
  synchronized void daily() {
    if (clock.instant().isBefore(next)) {
      return;
    }
    next = clock.instant().plus(EVERY);
    try {
      purge();
      sweep();
    } catch (RuntimeException e) {
      LOG.log(System.Logger.Level.WARNING, "the daily sweep stopped", e);
    }
  }

  /** Takes books out of the store that were in the bin for the time a person set, if any. */
  private void purge() {
    Optional<Integer> days = store.jdbi().withHandle(Removal::binDays);
    if (days.isPresent()) {
      Instant due = clock.instant().minus(Duration.ofDays(days.get()));
      ids("book").forEach(book -> purge(book, due));
    }
  }

  /** Returns after how many days in the bin a book goes; empty until a person says so. */
  static Optional<Integer> binDays(Handle h) {
    return Keys.find(h, BIN_DAYS).map(Integer::valueOf);
  }

  /** Takes a book out of the store; false unless it was in the bin at a moment. */
  boolean purge(String book, Instant at) {
    boolean gone = taken(book, at);
    if (gone) {
      purged.note(book, true);
      told.forEach(t -> t.accept(book));
    }
    return gone;
  }

  private boolean taken(String book, Instant at) {
    return store.edit(
        book,
        h -> {
          boolean due =
              h.createQuery(
                      "select discarded_at from book where id = :id and discarded_at is not null")
                  .bind("id", book)
                  .mapTo(String.class)
                  .findOne()
                  .filter(since -> !Instant.parse(since).isAfter(at))
                  .isPresent();
          if (!due) {
            return false;
          }
          h.createQuery(SqlLibrary.NAMED).mapTo(String.class).list().stream()
              .filter(file -> file.startsWith(book + "/"))
              .forEach(file -> doom(h, file));
          doom(h, book);
          return h.execute("delete from book where id = ?", book) == 1;
        });
  }

  /** Notes that a file of a book goes, {@code BOOK/FILE}, in the step that lets it go. */
  static void doom(Handle h, String file) {
    h.execute("insert into doomed (file) values (?) on conflict do nothing", file);
  }

  /** Sweeps, also what was written for a book that is not there any more. */
  void sweep(String book) {
    if (!ids("book").contains(book)) {
      purged.note(book, true);
    }
    sweep();
  }

  /** Deletes what was let go, and the smaller pictures of pages that are not in the store. */
  void sweep() {
    List<Path> scaled = OurFiles.list(cache).stream().filter(OurFiles::isScaled).toList();
    Set<String> pages = ids("page");
    scaled.stream().filter(f -> !pages.contains(OurFiles.pageOf(f))).forEach(Removal::deleteScaled);
    List<String> doomed = texts("select file from doomed order by length(file) desc");
    doomed.forEach(this::delete);
    purged.names().forEach(this::delete);
    if (!doomed.isEmpty()) {
      store.shrink();
    }
    store.forget();
  }

  /** Deletes the smaller pictures of pages, and what was let go with them. */
  void pages(Set<String> pages) {
    OurFiles.list(cache).stream()
        .filter(file -> OurFiles.isScaled(file) && pages.contains(OurFiles.pageOf(file)))
        .forEach(Removal::deleteScaled);
    texts("select file from doomed order by length(file) desc").forEach(this::delete);
    store.forget();
  }

  private Set<String> ids(String table) {
    return new HashSet<>(texts("select id from " + table));
  }

  private List<String> texts(String query) {
    return store.jdbi().withHandle(h -> h.createQuery(query).mapTo(String.class).list());
  }

  /** Deletes what is noted as let go, and the note with it. */
  private void delete(String doomed) {
    int slash = doomed.indexOf('/');
    try {
      if (slash < 0) {
        deleteBook(doomed);
      } else {
        pictures.remove(doomed.substring(0, slash), doomed.substring(slash + 1));
      }
      store
          .jdbi()
          .useTransaction(
              h -> {
                h.execute("delete from doomed where file = ?", doomed);
                h.execute("delete from picture where book || '/' || file = ?", doomed);
              });
    } catch (IOException e) {
      LOG.log(
          System.Logger.Level.WARNING,
          "deleted only at the next sweep: {0} ({1})",
          books.resolve(doomed),
          e);
    }
  }

  /** Deletes what is ours in the folder of a book, and the folder when nothing else is in it. */
  private void deleteBook(String book) throws IOException {
    Path folder = books.resolve(book);
    if (Files.isDirectory(folder, LinkOption.NOFOLLOW_LINKS)) {
      for (Path file : OurFiles.list(folder)) {
        if (OurFiles.isOfBook(file)) {
          Files.deleteIfExists(file);
        }
      }
      try {
        Files.deleteIfExists(folder);
      } catch (DirectoryNotEmptyException e) {
        if (texts("select file from doomed").stream().anyMatch(f -> f.startsWith(book + "/"))) {
          throw e;
        }
        LOG.log(
            System.Logger.Level.WARNING,
            "stays, for there are files in it that barmap did not make: {0}",
            folder);
      }
    }
    pictures.removeBook(book);
    setAside.deleteOf(book);
  }

  private static void deleteScaled(Path file) {
    try {
      Files.deleteIfExists(file);
    } catch (IOException e) {
      LOG.log(System.Logger.Level.WARNING, "deleted only at the next sweep: {0} ({1})", file, e);
    }
  }
}
