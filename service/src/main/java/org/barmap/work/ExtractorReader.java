package org.barmap.work;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.extract.Extractor;
import org.barmap.map.BarMap;
import org.barmap.map.Book;
import org.barmap.map.Finding;
import org.barmap.page.PageResult;
import org.barmap.page.PageSource;
import org.barmap.reckon.Reckoner;
import org.barmap.sign.ReadPage;

/** Reads with the extractor; its models are loaded when the first page is read. */
public final class ExtractorReader implements PageReader {

  private Optional<Extractor> extractor = Optional.empty();

  /** Makes a reader that has loaded nothing yet. */
  public ExtractorReader() {}

  private synchronized Extractor extractor() {
    Extractor open = extractor.orElseGet(Extractor::open);
    extractor = Optional.of(open);
    return open;
  }

  @Override
  public List<Result> read(Path picture, String source, int index) {
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

  private static ReadPage named(ReadPage page, String source) {
    return new ReadPage(page.index(), source, page.width(), page.height(), page.systems());
  }

  @Override
  public BarMap settle(Book book, List<ReadPage> pages) {
    return new Reckoner().reckon(book, pages);
  }

  @Override
  public synchronized void close() {
    extractor.ifPresent(Extractor::close);
    extractor = Optional.empty();
  }
}
