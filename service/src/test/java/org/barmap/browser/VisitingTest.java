package org.barmap.browser;

import java.io.IOException;
import java.nio.file.Path;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;

/** Tests of one visit: a service, a browser at it, and its API, closed after the last of them. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
abstract class VisitingTest {

  Visit visit;
  Browser browser;
  Api api;

  @SuppressWarnings("NullAway.Init") // before all tests
  VisitingTest() {}

  /** Starts it on a data folder, in a window of some size, pixels. */
  void visit(Path data, int width, int height) {
    visit(RunningService.here(data), width, height);
  }

  /** Visits a service that runs, in a window of some size, pixels. */
  void visit(RunningService service, int width, int height) {
    visit = Visit.to(service, width, height);
    browser = visit.browser();
    api = visit.api();
  }

  @AfterAll
  void close() {
    visit.close();
  }

  /** Tests of one visit to a book that is read and planned, in a large window. */
  abstract static class OfReadyBook extends VisitingTest {

    String book;

    @SuppressWarnings("NullAway.Init") // before all tests
    OfReadyBook() {}

    @BeforeAll
    void open(@TempDir Path data) throws IOException {
      book = ReadyBook.into(data);
      visit(data, 1440, 900);
    }
  }
}
