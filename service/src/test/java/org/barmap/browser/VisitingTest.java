package org.barmap.browser;

import java.nio.file.Path;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.TestInstance;

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
    visit = Visit.to(data, width, height);
    browser = visit.browser();
    api = visit.api();
  }

  @AfterAll
  void close() {
    visit.close();
  }
}
