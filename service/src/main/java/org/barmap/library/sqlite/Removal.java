package org.barmap.library.sqlite;

import java.io.IOException;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.attribute.BasicFileAttributes;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.barmap.library.Books;
import org.jdbi.v3.core.Jdbi;

/**
 * Takes off the disk what is no longer in the store: rented pages must go when a person says so.
 *
 * <p>A file that can't be deleted is logged and tried again at the next sweep. What is deleted from
 * the store itself is overwritten there ({@code secure_delete}); its traces in the write-ahead log
 * go with {@link #forget}.
 */
final class Removal {

  private static final System.Logger LOG = System.getLogger(Removal.class.getName());
  private static final Duration EVERY = Duration.ofDays(1);

  /** The files in use below the folder of books; a new kind of file is named here. */
  private static final String NAMED =
      """
      select book || '/' || picture from page
      union select j.book || '/' || u.file from upload u join job j on j.id = u.job where u.open = 1
      union select book || '/' || file from second_reading
      """;

  private final Jdbi jdbi;
  private final Path books;
  private final Path cache;
  private final Clock clock;
  private final Set<Path> stuck = ConcurrentHashMap.newKeySet();
  private Instant next = Instant.MIN;

  Removal(Jdbi jdbi, Path root, Clock clock) {
    this.jdbi = jdbi;
    this.books = root.resolve("books");
    this.cache = root.resolve("cache");
    this.clock = clock;
  }

  /** Sweeps while nothing else is at work, so that also half-written files can be told. */
  void atStart() {
    purge();
    Set<String> named = texts(NAMED);
    Set<String> ids = ids("book");
    for (Path book : list(books)) {
      if (ids.contains(name(book))) {
        deleteIn(book, file -> !named.contains(name(book) + "/" + name(file)));
      }
    }
    Set<String> pages = ids("page");
    deleteIn(cache, file -> !pages.contains(pageOf(file)));
    sweep();
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
      LOG.log(System.Logger.Level.WARNING, "the daily sweep stopped: " + e.getMessage(), e);
    }
  }

  /** Takes books out of the store that were in the bin for their time. */
  private void purge() {
    Instant due = clock.instant().minus(Books.KEPT_IN_BIN);
    ids("book").forEach(book -> purge(book, due));
  }

  /** Takes a book out of the store; false unless it was in the bin at a moment. */
  boolean purge(String book, Instant at) {
    return jdbi.inTransaction(
        h -> {
          boolean due =
              h.createQuery(
                      "select discarded_at from book where id = :id and discarded_at is not null")
                  .bind("id", book)
                  .mapTo(String.class)
                  .findOne()
                  .filter(since -> !Instant.parse(since).isAfter(at))
                  .isPresent();
          return due && h.execute("delete from book where id = ?", book) == 1;
        });
  }

  /**
   * Deletes the folders of books and the scaled pictures of pages that are not in the store, and
   * what could not be deleted earlier. A folder is looked for before its book is: it never is older
   * than the book.
   */
  void sweep() {
    List<Path> folders = list(books);
    List<Path> scaled = list(cache);
    Set<String> ids = ids("book");
    folders.stream().filter(f -> !ids.contains(name(f))).forEach(this::delete);
    Set<String> pages = ids("page");
    // other files there are uploads under way, which the server keeps for as long as they take
    scaled.stream()
        .filter(f -> !pageOf(f).isEmpty() && !pages.contains(pageOf(f)))
        .forEach(this::delete);
    List.copyOf(stuck).forEach(this::delete);
    forget();
  }

  /** Returns where a file of a book lies. */
  Path file(String book, String name) {
    return books.resolve(book).resolve(name);
  }

  /** Deletes the scaled pictures of a page, and its picture where no other page is on it. */
  void page(String page, Optional<Path> picture) {
    deleteIn(cache, file -> pageOf(file).equals(page));
    picture.ifPresent(this::delete);
    forget();
  }

  /** Empties the write-ahead log into the store: it still holds what was deleted. */
  void forget() {
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

  private Set<String> ids(String table) {
    return texts("select id from " + table);
  }

  private Set<String> texts(String query) {
    return new HashSet<>(jdbi.withHandle(h -> h.createQuery(query).mapTo(String.class).list()));
  }

  /** Returns the page a scaled picture is of; empty for any other file. */
  private static String pageOf(Path file) {
    String name = name(file);
    return name.matches("[a-z0-9]+-\\d+\\.jpg") ? name.substring(0, name.indexOf('-')) : "";
  }

  private static String name(Path file) {
    return String.valueOf(file.getFileName());
  }

  private void deleteIn(Path folder, Predicate<Path> which) {
    list(folder).stream().filter(which).forEach(this::delete);
  }

  private static List<Path> list(Path folder) {
    try (Stream<Path> files = Files.list(folder)) {
      return files.toList();
    } catch (IOException e) {
      LOG.log(
          System.Logger.Level.WARNING, folder + " can't be looked through: " + e.getMessage(), e);
      return List.of();
    }
  }

  /** Deletes a file, or the folder of a book with what is in it. */
  private void delete(Path path) {
    try {
      Path folder = path.getParent();
      if (books.equals(folder) && Files.isDirectory(path, LinkOption.NOFOLLOW_LINKS)) {
        Files.walkFileTree(path, new Deleting());
      } else {
        Files.deleteIfExists(path);
      }
      stuck.remove(path);
    } catch (IOException e) {
      stuck.add(path);
      LOG.log(
          System.Logger.Level.WARNING,
          path + " can't be deleted and is tried again at the next sweep: " + e);
    }
  }

  private static final class Deleting extends SimpleFileVisitor<Path> {
    @Override
    public FileVisitResult visitFile(Path file, BasicFileAttributes attributes) throws IOException {
      Files.deleteIfExists(file);
      return FileVisitResult.CONTINUE;
    }

    @Override
    public FileVisitResult postVisitDirectory(
        Path folder, @org.jspecify.annotations.Nullable IOException e) throws IOException {
      if (e != null) {
        throw e;
      }
      Files.deleteIfExists(folder);
      return FileVisitResult.CONTINUE;
    }
  }
}
