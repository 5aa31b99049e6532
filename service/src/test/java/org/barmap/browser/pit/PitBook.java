package org.barmap.browser.pit;

import java.io.IOException;
import java.nio.file.Path;
import org.barmap.browser.Api;
import org.barmap.browser.Browser;
import org.barmap.browser.DemoBook;
import org.barmap.browser.ReadyBook;
import org.barmap.browser.Visit;

/** The demo book with the changes of its show, and a window at it. */
record PitBook(Visit visit, String book) implements AutoCloseable {

  /** Puts it on a shelf and opens a window of some size, pixels. */
  static PitBook in(Path data, int width, int height) throws IOException {
    String book = ReadyBook.into(data);
    Visit visit = Visit.to(data, width, height);
    DemoBook.changesInto(visit.api(), book);
    return new PitBook(visit, book);
  }

  Browser browser() {
    return visit.browser();
  }

  Api api() {
    return visit.api();
  }

  @Override
  public void close() {
    visit.close();
  }
}
