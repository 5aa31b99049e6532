package org.barmap.browser;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.barmap.cli.BadFiles;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A page without music is photographed again: the new picture in its place, and taken back. */
class RetakeBrowserTest {

  @TempDir private Path folder;

  @Test
  void theNewPictureTakesThePlaceAndIsTakenBack() throws IOException {
    try (Visit visit = Visit.to(folder.resolve("data"), 1440, 900)) {
      Browser browser = visit.browser();
      String book = visit.newBook("Saltmarsh", "Bass");
      browser.files("#choose-files", List.of(BadFiles.whitePage(folder)));
      browser.see(".thumb", "Take it again");
      browser.files(".thumb input[type=file]", List.of(DemoBook.page("page-01.png")));
      browser
          .waiting(120)
          .until(
              d ->
                  sources(visit, book).equals(List.of("page-01.png"))
                      || !browser.all("dialog[open]").isEmpty());
      if (!browser.all("dialog[open]").isEmpty()) {
        browser.click("dialog [type=submit]");
      }
      browser.see(".toast", "New picture of page 1");
      browser.waiting(30).until(d -> sources(visit, book).equals(List.of("page-01.png")));
      browser.click(".toast .btn-quiet");
      browser.waiting(30).until(d -> sources(visit, book).equals(List.of("white.png")));
      assertThat(browser.complaints()).isEmpty();
    }
  }

  private static List<String> sources(Visit visit, String book) {
    return visit
        .api()
        .get("/api/books/" + book)
        .path("pages")
        .valueStream()
        .map(p -> p.path("source").asString())
        .toList();
  }
}
