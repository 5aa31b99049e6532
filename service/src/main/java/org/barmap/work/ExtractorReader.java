package org.barmap.work;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.locks.ReadWriteLock;
import java.util.concurrent.locks.ReentrantReadWriteLock;
import org.barmap.extract.Extractor;
import org.barmap.library.PageCard;
import org.barmap.map.BarMap;
import org.barmap.map.Book;
import org.barmap.map.Finding;
import org.barmap.map.Outline;
import org.barmap.page.PageResult;
import org.barmap.page.PageSource;
import org.barmap.reckon.Reckoner;
import org.barmap.sign.ReadPage;

/** Reads with the extractor; its models are loaded when the first page is read. */
public final class ExtractorReader implements PageReader {

  /** Held for reading by whoever reads a page, so that the models are closed after them. */
  private final ReadWriteLock pages = new ReentrantReadWriteLock();

  private Optional<Extractor> extractor = Optional.empty();
  private boolean closed;

  /** Makes a reader that has loaded nothing yet. */
  public ExtractorReader() {}

  private synchronized Extractor extractor() {
    if (closed) {
      throw new IllegalStateException("the models are closed");
    }
    Extractor open = extractor.orElseGet(Extractor::open);
    extractor = Optional.of(open);
    return open;
  }

  @Override
  public List<Result> read(Path picture, String source, int index) {
    pages.readLock().lock();
    try {
      return readOpen(picture, source, index);
    } finally {
      pages.readLock().unlock();
    }
  }

  private List<Result> readOpen(Path picture, String source, int index) {
    List<Result> results = new ArrayList<>();
    try (PageSource pages = new PageSource(List.of(picture))) {
      while (pages.hasNext()) {
        PageResult page = pages.next();
        List<Finding> findings = new ArrayList<>(page.findings());
        Optional<ReadPage> read =
            page instanceof PageResult.Loaded loaded
                ? Optional.of(
                    named(
                        extractor().readPage(loaded.page(), index + results.size(), findings),
                        source))
                : Optional.empty();
        results.add(new Result(read, findings));
      }
    }
    return results;
  }

  @Override
  public Optional<ReadPage> read(Path picture, PageCard page, Outline frame) {
    pages.readLock().lock();
    try (PageSource source = new PageSource(List.of(picture))) {
      for (int at = 1; source.hasNext(); at++) {
        if (source.next() instanceof PageResult.Loaded loaded) {
          if (at == page.part()) {
            ReadPage read = extractor().readPage(loaded.page(), page.index(), frame);
            return Optional.of(named(read, page.source()));
          }
          loaded.page().close();
        }
      }
      return Optional.empty();
    } finally {
      pages.readLock().unlock();
    }
  }

  private static ReadPage named(ReadPage page, String source) {
    return new ReadPage(
        page.index(),
        source,
        page.width(),
        page.height(),
        page.systems(),
        page.folio(),
        page.byHand());
  }

  @Override
  public BarMap settle(Book book, List<ReadPage> pages) {
    return new Reckoner().reckon(book, pages);
  }

  /** Closes the models, after the pages at hand. */
  @Override
  public void close() {
    pages.writeLock().lock();
    try {
      closeModels();
    } finally {
      pages.writeLock().unlock();
    }
  }

  private synchronized void closeModels() {
    closed = true;
    extractor.ifPresent(Extractor::close);
    extractor = Optional.empty();
  }
}
