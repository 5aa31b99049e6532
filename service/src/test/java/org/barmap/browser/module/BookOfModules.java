package org.barmap.browser.module;

import java.io.IOException;
import java.nio.file.Path;
import org.barmap.browser.ReadyBook;
import org.barmap.browser.Visit;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;

/**
 * Tests of modules of the pages, called in a small window on a book that is ready; nothing is left
 * of what the test before called.
 */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
abstract class BookOfModules {

  private String book;
  private Visit visit;

  @SuppressWarnings("NullAway.Init") // before all tests
  BookOfModules() {}

  @BeforeAll
  void open(@TempDir Path data) throws IOException {
    book = ReadyBook.into(data);
    visit = Visit.to(data, 800, 600);
  }

  @AfterAll
  void close() {
    visit.close();
  }

  /** Opens a page anew. */
  @BeforeEach
  void fresh() {
    visit.browser().go(page());
    visit.browser().see("main h1");
  }

  /** Returns where they are called; the pages have windows of their own open on the book. */
  String page() {
    return "/";
  }

  /** Runs lines of JavaScript that know {@code book}; what they return, or how they failed. */
  String called(String... lines) {
    return String.valueOf(
        visit
            .browser()
            .asyncScript(
                "const done = arguments[arguments.length - 1]; const book = '%s';".formatted(book)
                    + "(async () => {"
                    + String.join("\n", lines)
                    + "})().then(r => done(String(r)), e => done('failed: ' + e + (e.stack ?? '')))"));
  }
}
