package org.barmap.browser;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.barmap.sheet.SheetKind;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;

/** Two players at once, the phone, and what people need who see or move differently. */
class OnePageBrowserTest extends VisitingTest {

  private static final List<String> ROOMS =
      List.of(
          "/",
          "/book.html",
          "/desk.html",
          "/road.html",
          "/turns.html",
          "/practice.html",
          "/stand.html");

  private static final String AT_IT =
      "return [...document.querySelectorAll('.waiting')].some(e => e.textContent.endsWith('…'))";

  private String book = "";

  @BeforeAll
  void open(@TempDir Path data) {
    visit(data, 1280, 900);
    book =
        api.post("/api/books", Map.of("title", "Saltmarsh", "part", "Bass")).path("id").asString();
    browser.go("/book.html?b=" + book);
    browser.files("#choose-files", List.of(DemoBook.page("page-01.png")));
    browser.count(".thumb[data-state=read]", 1, 120);
    // the page is read before its bars are in the map
    browser.waiting(60).until(d -> api.get("/api/books/" + book + "/map").path("bars").size() > 0);
  }

  @BeforeEach
  void desktop() {
    browser.size(1280, 900);
    browser.complaints();
  }

  @Test
  void twoWhoEditOneBarAtOnceLoseNothing() {
    // The live line is cut, as when the machine slept: the page does not hear of the other player.
    browser.block("*/events");
    browser.go("/desk.html?b=" + book + "&p=1");
    String map = "/api/books/" + book + "/map";
    String id = firstBar(map).path("id").asString();
    String before = firstBar(map).path("content").asString();
    browser.point("[data-bar='" + id + "'] .bar-field");
    browser.see(".bar-form[data-bar='" + id + "']");
    api.post(
        "/api/books/" + book + "/corrections",
        Map.of(
            "kind", "set-rehearsal", "bar", id, "text", "QQ", "enclosure", "box", "who", "second"),
        api.revision(map));
    browser.click("[data-value=bar-repeat]");
    browser.see(".both-theirs", "second");
    browser.see(".both-mine", "same again");
    assertThat(Axe.violations(browser)).isEmpty();
    browser.click("dialog .dialog-foot .btn:first-child");
    browser.see("[data-bar='" + id + "'] .pill-mark", "QQ");
    assertThat(firstBar(map).path("content").asString()).isEqualTo(before);
    api.post(
        "/api/books/" + book + "/corrections",
        Map.of("kind", "set-meter", "bar", id, "beats", 3, "unit", 4, "who", "second"),
        api.revision(map));
    browser.click("[data-value=bar-repeat]");
    browser.click("dialog [type=submit]");
    browser.see("[data-bar='" + id + "'] .pill-plain", "same");
    assertThat(firstBar(map).path("content").asString()).isEqualTo("bar-repeat");
    assertThat(firstBar(map).path("meter").path("beats").asInt()).as("theirs stays").isEqualTo(3);
    browser
        .waiting(10)
        .withMessage("the focus fell to the page's body")
        .until(d -> !browser.script("return document.activeElement.tagName").equals("BODY"));
    browser.block();
  }

  @Test
  void aBookInTheBinCanBeBroughtBack() {
    api.post("/api/books", Map.of("title", "Other", "part", "Reed 2"));
    browser.go("/");
    browser.see(".book h2", "Other");
    int books = browser.all(".book").size();
    browser.click("[aria-label^='Put Other']");
    browser.count(".book", books - 1, 20);
    browser.see(".toast", "in the bin");
    browser.click(".toast .btn-quiet");
    browser.count(".book", books, 20);
    browser.see(".book h2", "Other");
  }

  /** Answers the question before what can't be taken back. */
  private void agree(String told) {
    browser.see(".dialog", "can't be taken back");
    browser.click(".dialog .btn-bad");
    browser.see(".toast", told);
  }

  @Test
  void aBookInTheBinIsRemovedForGoodAfterAQuestion() {
    api.post("/api/books", Map.of("title", "Flotsam", "part", "Reed 3"));
    browser.go("/");
    browser.click("[aria-label^='Put Flotsam']");
    browser.see(".bin", "only when I remove it");
    browser.see(".binned h3", "Flotsam");
    browser.click("[aria-label^='Remove Flotsam']");
    agree("removed for good");
    browser.count("[aria-label^='Bring back Flotsam']", 0, 20);
  }

  @Test
  void theBinTakesATimeAndIsEmptiedAtOnce() {
    for (String title : List.of("Kelp", "Wrack line")) {
      String id =
          api.post("/api/books", Map.of("title", title, "part", "Reed 3")).path("id").asString();
      api.delete("/api/books/" + id);
    }
    browser.go("/");
    browser.see(".binned", "In the bin since");
    browser.choose("#bin-days", "90");
    browser.see(".binned", "Removed for good on");
    assertThat(api.get("/api/bin").path("days").asInt()).isEqualTo(90);
    browser.choose("#bin-days", "0");
    browser.see(".binned", "In the bin since");
    browser.click("#empty-bin");
    agree("The bin is empty");
    browser.count(".bin", 0, 20);
  }

  @Test
  void everySheetIsAPdf() {
    enter("/turns.html");
    Object kinds =
        browser.asyncScript(
            "const done = arguments[arguments.length - 1];"
                + "Promise.all([...document.querySelectorAll('.sheet-links a')].map("
                + "a => fetch(a.href).then(r => r.status + ' ' + r.headers.get('content-type')))).then(done)");
    assertThat((List<?>) kinds).hasSize(SheetKind.values().length);
    assertThat(String.valueOf(kinds)).matches("\\[(200 application/pdf(, )?)+\\]");
  }

  @Test
  void aBookThatIsNotThereIsSaidSo() {
    for (String room : ROOMS.subList(1, ROOMS.size())) {
      browser.go(room + "?b=nothere");
      browser.see(".dead-end h1", "No such book");
    }
  }

  @Test
  void aBookWithoutBarsLeadsToItsPages() {
    String bare =
        api.post("/api/books", Map.of("title", "Wrack", "part", "Reed 4")).path("id").asString();
    for (String view :
        List.of("/road.html#", "/turns.html#", "/turns.html#ahead", "/turns.html#pencil")) {
      browser.go(view.replace("#", "?b=" + bare + "#"));
      browser.see("main .waiting a[href='/book.html?b=" + bare + "']", "Add pages");
    }
  }

  private void enter(String room) {
    browser.go(room + "?b=" + book);
    browser.see("main h1");
    browser
        .waiting(20)
        .withMessage(() -> room + " is still at it")
        .until(d -> Boolean.FALSE.equals(browser.script(AT_IT)));
  }

  private JsonNode firstBar(String map) {
    return api.get(map).path("bars").path(0);
  }
}
