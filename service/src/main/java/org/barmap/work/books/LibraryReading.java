package org.barmap.work.books;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.barmap.map.BarMap;
import org.barmap.map.Finding;
import org.barmap.map.SecondReading;
import org.barmap.map.Severity;
import org.barmap.map.json.BarMapJson;
import org.barmap.page.file.PageFiles;
import org.barmap.reckon.Fixed;
import org.barmap.reckon.SecondEvidence;
import org.barmap.work.PageReader;

/**
 * Reads every book of a library, one after the other. One that can't be read does not stop the
 * others; one that is done and has not changed since is not read again.
 */
public final class LibraryReading {

  private static final System.Logger LOG = System.getLogger(LibraryReading.class.getName());

  private final Path library;
  private final Path out;
  private final PageReader reader;
  private final Seconds seconds;
  private final Watch watch;
  private int toRead;
  private int done;
  private long start;

  /** Asks other readers of music for their readings of a book. */
  public interface Seconds {
    /** Returns the readings of those that read it. */
    List<SecondReading.Part> of(FoundBook book) throws IOException;
  }

  /** Is told how far it is. */
  public interface Watch {
    /**
     * A page was read.
     *
     * @param left seconds, as far as can be told from the pages so far; empty after none
     */
    void page(int done, int of, String book, Optional<Double> left);
  }

  /**
   * Prepares.
   *
   * @param library a folder of folders and files
   * @param out takes the maps, in the same folders
   */
  public LibraryReading(Path library, Path out, PageReader reader, Seconds seconds, Watch watch) {
    this.library = library;
    this.out = out;
    this.reader = reader;
    this.seconds = seconds;
    this.watch = watch;
  }

  /**
   * Reads what is not done yet.
   *
   * @return a line for each book, in order
   * @throws IOException when the library can't be listed, or nothing can be written
   * @throws IllegalStateException when another run writes into the same folder
   */
  public List<BookLine> run() throws IOException {
    Files.createDirectories(out);
    try (FileChannel file =
            FileChannel.open(
                out.resolve(".lock"), StandardOpenOption.CREATE, StandardOpenOption.WRITE);
        FileLock lock = locked(file)) {
      LOG.log(System.Logger.Level.DEBUG, "alone in {0}: {1}", out, lock.isValid());
      List<FoundBook> books = BookFinder.in(library, out);
      Map<FoundBook, BookLine> kept = kept(books);
      List<BookLine> lines = new ArrayList<>();
      start = System.nanoTime();
      for (FoundBook book : books) {
        BookLine before = kept.get(book);
        lines.add(before != null ? before.unchanged() : guarded(book));
      }
      return lines;
    }
  }

  private FileLock locked(FileChannel file) throws IOException {
    try {
      FileLock lock = file.tryLock();
      if (lock != null) {
        return lock;
      }
    } catch (OverlappingFileLockException e) {
      LOG.log(System.Logger.Level.DEBUG, "the lock is held in this program", e);
    }
    throw new IllegalStateException("another run writes into " + out + "; wait for its end");
  }

  /** Finds what is done already, and counts the pages of the rest. */
  private Map<FoundBook, BookLine> kept(List<FoundBook> books) {
    Map<FoundBook, BookLine> kept = new HashMap<>();
    for (FoundBook book : books) {
      try {
        Optional<UnderWay.Done> there = UnderWay.of(out, book).done();
        there.ifPresent(d -> kept.put(book, d.line()));
      } catch (IOException e) {
        LOG.log(System.Logger.Level.DEBUG, "nothing is kept of a book", e);
      }
      if (!kept.containsKey(book)) {
        book.files().forEach(f -> toRead += isWhole(f) ? reader.count(f) : 1);
      }
    }
    return kept;
  }

  private static boolean isWhole(Path file) {
    return PageFiles.name(file).toLowerCase(Locale.ROOT).matches(".*\\.(pdf|tiff?)");
  }

  private BookLine guarded(FoundBook book) {
    long begun = System.nanoTime();
    try {
      return read(book);
    } catch (IOException | UncheckedIOException e) {
      return failed(book, begun, book.name() + ": " + e.getMessage());
    } catch (RuntimeException | StackOverflowError | OutOfMemoryError e) {
      LOG.log(System.Logger.Level.WARNING, "a book can't be read", e);
      return failed(book, begun, book.name() + ": something went wrong while it was read");
    }
  }

  private static BookLine failed(FoundBook book, long begun, String why) {
    return BookLine.failed(book, List.of(why), (System.nanoTime() - begun) / 1e9);
  }

  private BookLine read(FoundBook book) throws IOException {
    UnderWay kept = UnderWay.of(out, book);
    BookReading reading = new BookReading(reader, kept.folder(), () -> tick(book));
    reading.read(book);
    if (reading.pages().isEmpty()) {
      BookLine none = BookLine.failed(book, reading.failures(), reading.seconds());
      kept.finish(none, reading.again());
      return none;
    }
    BarMap alone = reader.settle(book.book(), reading.pages());
    BarMap map = SecondEvidence.ofSamePages().settle(alone, seconds.of(book), Fixed.NOTHING);
    Path to = book.map(out);
    BarMapJson.write(map, to);
    long doubts = map.findings().stream().filter(LibraryReading::isDoubt).count();
    BookLine line =
        new BookLine(
            book.name(),
            BookLine.State.READ,
            map.pages().size(),
            map.writtenBars(),
            (int) doubts,
            reading.seconds(),
            Optional.of(out.relativize(to).toString().replace('\\', '/')),
            reading.failures());
    kept.finish(line, reading.again());
    return line;
  }

  private static boolean isDoubt(Finding finding) {
    return finding.severity() == Severity.DOUBT;
  }

  private void tick(FoundBook book) {
    done++;
    double each = (System.nanoTime() - start) / 1e9 / done;
    int left = Math.max(0, toRead - done);
    watch.page(done, Math.max(done, toRead), book.name(), Optional.of(each * left));
  }
}
