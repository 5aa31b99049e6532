package org.barmap.browser.module;

import java.io.IOException;
import java.nio.file.Path;
import org.barmap.browser.ReadyBook;
import org.barmap.browser.Visit;

/** A book that is ready, and a small window in which modules of the pages are called on it. */
record BookOfModules(Visit visit, String book) implements AutoCloseable {

  static BookOfModules in(Path data) throws IOException {
    String book = ReadyBook.into(data);
    return new BookOfModules(Visit.to(data, 800, 600), book);
  }

  /** Opens a page anew, so that nothing is left of what was called before. */
  void fresh() {
    visit.browser().go("/");
    visit.browser().see("main h1");
  }

  /** Runs lines of JavaScript that know {@code book}; what they return, or how they failed. */
  String run(String... lines) {
    return String.valueOf(
        visit
            .browser()
            .asyncScript(
                "const done = arguments[arguments.length - 1]; const book = '%s';".formatted(book)
                    + "(async () => {"
                    + String.join("\n", lines)
                    + "})().then(r => done(String(r)), e => done('failed: ' + e + (e.stack ?? '')))"));
  }

  @Override
  public void close() {
    visit.close();
  }
}
