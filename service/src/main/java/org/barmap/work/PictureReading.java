package org.barmap.work;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.library.Library;
import org.barmap.library.PageCard;
import org.barmap.library.PageState;
import org.barmap.library.picture.DamagedPictureException;
import org.barmap.map.Finding;
import org.barmap.sign.StoredPage;

/**
 * Reads a picture with all the pages on it. The page it is read for is stored last: while it is not
 * done, a kill lets the whole picture be read again.
 */
record PictureReading(
    Library library, PageReader reader, PageCopies copies, Events events, ReadingCounts counts) {

  private static final System.Logger LOG = System.getLogger(PictureReading.class.getName());

  /** Reads the picture of a page that waits, left-hand or right-hand. */
  void read(String book, PageCard page) {
    Optional<Path> picture = picture(book, page);
    if (picture.isEmpty()) {
      allFailed(book, page, "Its picture is missing or damaged; photograph or scan it again");
      return;
    }
    library.pages().begin(page.id());
    tellPage(book, page.id());
    List<PageReader.Result> results;
    long begun = System.nanoTime();
    try {
      int first = page.index() - page.part() + 1;
      results = reader.read(picture.get(), page.source(), Math.max(1, first));
    } catch (ReadingStoppedException e) {
      throw e;
    } catch (PageLostException e) {
      allFailed(book, page, String.valueOf(e.getMessage()));
      return;
    } catch (RuntimeException | StackOverflowError | OutOfMemoryError e) {
      LOG.log(System.Logger.Level.WARNING, "a page can't be read", e);
      allFailed(book, page, "This page can't be read; photograph or scan it again");
      return;
    }
    counts.looked(System.nanoTime() - begun);
    if (results.isEmpty()) {
      allFailed(book, page, "There is no page on this picture; photograph or scan it again");
      return;
    }
    for (int part = 1; part <= results.size(); part++) {
      if (part != page.part()) {
        PageReader.Result result = results.get(part - 1);
        partOf(book, page, part).ifPresent(p -> store(book, p, result));
      }
    }
    others(book, page).stream()
        .filter(p -> p.part() > results.size())
        .forEach(p -> failed(book, p, "Only one page was seen on this picture this time"));
    if (page.part() <= results.size()) {
      store(book, page, results.get(page.part() - 1));
    } else {
      failed(book, page, "Only one page was seen on this picture this time");
    }
    if (results.stream().anyMatch(r -> r.page().isPresent())) {
      // what can't be read within its limits is not decoded once more for nobody
      copies.ahead(book, page);
    }
  }

  /** Brings a picture; a store that is away for a while is no fault of the page. */
  private Optional<Path> picture(String book, PageCard page) {
    try {
      return Optional.of(library.pages().picture(book, page));
    } catch (UncheckedIOException e) {
      IOException why = e.getCause();
      if (!(why instanceof NoSuchFileException || why instanceof DamagedPictureException)) {
        throw e;
      }
      LOG.log(System.Logger.Level.WARNING, "a picture can't be brought", e);
      return Optional.empty();
    }
  }

  /** The other pages on the picture of a page. */
  private List<PageCard> others(String book, PageCard page) {
    return library.pages().all(book).stream()
        .filter(p -> p.picture().equals(page.picture()) && !p.id().equals(page.id()))
        .toList();
  }

  /** A further page is added when it is new; an earlier one that is not there was taken out. */
  private Optional<PageCard> partOf(String book, PageCard page, int part) {
    Optional<PageCard> there =
        others(book, page).stream().filter(p -> p.part() == part).findFirst();
    return there.isPresent() || part < page.part()
        ? there
        : library.pages().addPart(book, page.id(), part);
  }

  private void store(String book, PageCard card, PageReader.Result result) {
    Optional<String> read = result.findings().stream().findFirst().map(Finding::text);
    // what was left out when the file was opened weighs more than what the reader saw of the rest
    Optional<String> finding = card.finding().or(() -> read);
    if (result.page().isPresent()) {
      library.pages().read(card.id(), StoredPage.write(result.page().get()), finding);
      tellPage(book, card.id());
    } else {
      failed(book, card, finding.orElse("This page can't be read"));
    }
  }

  private void allFailed(String book, PageCard page, String why) {
    others(book, page).stream()
        .filter(p -> p.state() == PageState.WAITING || p.state() == PageState.READING)
        .forEach(p -> failed(book, p, why));
    failed(book, page, why);
  }

  private void failed(String book, PageCard page, String why) {
    library.pages().fail(page.id(), why);
    counts.failedOne();
    tellPage(book, page.id());
  }

  private void tellPage(String book, String page) {
    events.tell(book, "page", Map.of("page", page));
  }
}
