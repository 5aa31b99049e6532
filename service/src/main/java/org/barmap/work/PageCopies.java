package org.barmap.work;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.Semaphore;
import org.barmap.library.Library;
import org.barmap.library.PageCard;

/**
 * Pictures of pages made smaller, kept in the store's cache. Those that the pages of a browser show
 * are made when a page is read, so that nobody waits for them; others when they are asked for.
 */
public final class PageCopies {

  private static final System.Logger LOG = System.getLogger(PageCopies.class.getName());

  /** What practice and the list of pages show, pixels wide; each is made from the one before it. */
  private static final List<Integer> AHEAD = List.of(1400, 400);

  /** Where so many books wait to be read, a library comes in that nobody turns the pages of yet. */
  private static final int MOST_WAITING = 50;

  private final Library library;
  private final PageReader reader;

  /** Whoever asks for a picture that another one makes waits for it: it is made once. */
  private final Map<Path, Object> atWork = new ConcurrentHashMap<>();

  /** Each takes a whole picture in memory, and a processor. */
  private final Semaphore places = new Semaphore(Runtime.getRuntime().availableProcessors(), true);

  /** Makes none yet. */
  public PageCopies(Library library, PageReader reader) {
    this.library = library;
    this.reader = reader;
  }

  /**
   * Returns a page's picture as JPEG.
   *
   * @param page one that has a picture
   * @param width wanted, pixels; never larger than it is
   * @return empty when the page was taken out meanwhile
   * @throws IOException when the picture can't be read
   */
  public Optional<InputStream> jpeg(String book, PageCard page, int width) throws IOException {
    Path small = file(page, width);
    if (!Files.exists(small)) {
      Object mine = atWork.computeIfAbsent(small, s -> new Object());
      try {
        synchronized (mine) {
          if (!Files.exists(small)) {
            make(book, page, width, small);
          }
        }
      } finally {
        atWork.remove(small, mine);
      }
      if (library.pages().find(book, page.id()).isEmpty()) {
        // it was taken out meanwhile, and its smaller pictures before this one was there
        Files.deleteIfExists(small);
        return Optional.empty();
      }
    }
    try {
      return Optional.of(Files.newInputStream(small));
    } catch (NoSuchFileException e) {
      return Optional.empty();
    }
  }

  private Path file(PageCard page, int width) {
    return library.pages().cache().resolve(page.id() + "-" + width + ".jpg");
  }

  private void make(String book, PageCard page, int width, Path small) throws IOException {
    Optional<Path> larger =
        AHEAD.stream()
            .filter(w -> w > width)
            .map(w -> file(page, w))
            .filter(Files::exists)
            .reduce((one, smaller) -> smaller);
    Path from = larger.orElseGet(() -> library.pages().picture(book, page));
    places.acquireUninterruptibly();
    try {
      reader.scale(from, width, small);
    } finally {
      places.release();
    }
  }

  /** Makes those of a page that will be asked for; what can't be made now is made then. */
  void ahead(String book, PageCard page) {
    boolean shown = !(library.pages().isElsewhere() && library.signals().isShared());
    if (!shown || library.jobs().counts().waiting() > MOST_WAITING) {
      return;
    }
    try {
      for (int width : AHEAD) {
        if (width < page.width()) {
          Optional<InputStream> made = jpeg(book, page, width);
          if (made.isPresent()) {
            made.get().close();
          }
        }
      }
    } catch (IOException | UncheckedIOException | PageLostException e) {
      LOG.log(System.Logger.Level.INFO, "a smaller picture is not made yet", e);
    }
  }
}
