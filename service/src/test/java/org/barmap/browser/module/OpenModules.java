package org.barmap.browser.module;

import java.nio.file.Path;
import org.barmap.browser.Browser;
import org.barmap.browser.Visit;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;

/** Tests of modules that know no book, called on an empty shelf; see {@link BookOfModules}. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
abstract class OpenModules {

  private Visit visit;

  @SuppressWarnings("NullAway.Init") // before all tests
  OpenModules() {}

  @BeforeAll
  void open(@TempDir Path data) {
    visit = Visit.to(data, 800, 600);
    browser().go("/");
    browser().see("main h1");
  }

  @AfterAll
  void close() {
    visit.close();
  }

  Browser browser() {
    return visit.browser();
  }
}
