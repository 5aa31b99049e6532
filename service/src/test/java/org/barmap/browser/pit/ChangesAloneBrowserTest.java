package org.barmap.browser.pit;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import org.barmap.browser.Api;
import org.barmap.browser.Axe;
import org.barmap.browser.Browser;
import org.barmap.browser.ReadyBook;
import org.barmap.browser.RunningService;
import org.barmap.browser.Visit;
import org.barmap.map.json.BarMapJson;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;

/** Changes go from one player's barmap to another's as a file, pages don't. */
class ChangesAloneBrowserTest {

  @TempDir private Path mine;
  @TempDir private Path theirs;
  @TempDir private Path folder;

  @Test
  void aSectionMateGetsTheChangesAndNoPage() throws IOException {
    Path file = folder.resolve("from-tom.json");
    JsonNode sent;
    try (PitBook pit = PitBook.in(mine, 390, 844)) {
      note(pit);
      Files.write(file, saved(pit));
      sent = BarMapJson.mapper().readTree(Files.readAllBytes(file));
    }
    assertThat(sent.propertyNames()).containsExactlyInAnyOrder("format", "changes");
    String text = Files.readString(file, StandardCharsets.UTF_8);
    assertThat(text)
        .as("neither pages nor bars with their places nor pictures of them")
        .doesNotContain("\"pages\"")
        .doesNotContain("\"bars\":[")
        .doesNotContain("outline")
        .doesNotContain("base64")
        .doesNotContain(".png");
    assertThat(Files.size(file)).isLessThan(20_000);
    String book = ReadyBook.into(theirs);
    try (RunningService service = RunningService.here(theirs);
        Visit mate = new Visit(service, Browser.open(service, 390, 844), new Api(service))) {
      JsonNode pages = mate.api().get("/api/books/" + book).path("pages");
      takeIn(mate.browser(), book, file);
      JsonNode got = mate.api().get("/api/books/" + book + "/changes").path("changes");
      assertThat(got.valueStream().map(c -> c.path("kind").asString()).toList())
          .isEqualTo(
              sent.path("changes").valueStream().map(c -> c.path("kind").asString()).toList());
      assertThat(mate.api().get("/api/books/" + book).path("pages"))
          .as("her pages are her own, as they were")
          .isEqualTo(pages);
      assertThat(mate.api().get("/api/books").path("books").size()).isEqualTo(1);
      mate.browser().go("/road.html?b=" + book);
      mate.browser().see(".form-said", "92 to 101");
    }
  }

  private static void note(PitBook pit) {
    String path = "/api/books/" + pit.book() + "/changes";
    Map<String, ?> note =
        Map.of("kind", "remind", "number", "7", "first", "20", "what", "text", "note", "breathe");
    pit.api().post(path, note, pit.api().revision(path));
  }

  /** Saves the changes by the link on the book's page. */
  private static byte[] saved(PitBook pit) {
    Browser browser = pit.browser();
    browser.go("/book.html?b=" + pit.book());
    browser.click("#save-as summary");
    String link = "#save-as a[href$='/export/changes']";
    assertThat(browser.see("#save-as").getText()).contains("no pages and no pictures");
    browser.see(link);
    return Base64.getDecoder()
        .decode(
            browser.answer(
                """
                const sent = await fetch(document.querySelector(`LINK`).href);
                done(btoa(unescape(encodeURIComponent(await sent.text()))));
                """
                    .replace("LINK", link)));
  }

  private static void takeIn(Browser browser, String book, Path file) {
    browser.go("/book.html?b=" + book);
    browser.click("#save-as summary");
    browser.files("#take-changes", List.of(file));
    browser.see(".taken", "No. 1: cut 92 to 101");
    browser.see(".taken", "breathe");
    assertThat(Axe.violations(browser)).isEmpty();
    browser.click("dialog [type=submit]");
    browser.see(".toast", "21 changes added");
  }
}
