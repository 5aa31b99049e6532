package org.barmap.browser;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.MethodOrderer;
import org.junit.jupiter.api.Order;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestMethodOrder;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.ElementNotInteractableException;
import org.openqa.selenium.Keys;
import org.openqa.selenium.WebElement;
import tools.jackson.databind.JsonNode;

/**
 * The main job as a player does it: pages in, the map corrected and verified, a cut in words, the
 * turns after it. One way from end to end, in order.
 */
@TestMethodOrder(MethodOrderer.OrderAnnotation.class)
class MainJobBrowserTest extends VisitingTest {

  private final List<String> pages = List.of("page-01.png", "page-02.jpg", "page-03.jpg");
  private String book = "";

  @BeforeAll
  void open(@TempDir Path data) {
    visit(RunningService.start(data), 1440, 900);
  }

  @Test
  @Order(1)
  void pagesAreUploadedAndRead() {
    book = visit.newBook("Saltmarsh", "Bass");
    browser.script(
        "window.said = new Set(); new MutationObserver(() => said.add(document.querySelector('.job')?.textContent))"
            + ".observe(document.body, {subtree: true, childList: true, characterData: true})");
    browser.files("#choose-files", pages.stream().map(DemoBook::page).toList());
    browser.count(".thumb[data-state=read]", pages.size(), 240);
    assertThat(bars()).as("bars read").hasSizeGreaterThan(20);
    List<?> said = (List<?>) browser.script("return [...said].filter(t => /Reading page/.test(t))");
    assertThat(said)
        .as("told of all pages that were given, whichever of them are there yet")
        .isNotEmpty()
        .allMatch(t -> t.toString().contains("of " + pages.size()));
    assertThat(browser.complaints()).isEmpty();
  }

  @Test
  @Order(2)
  void aRestIsCorrectedTakenBackAndCorrectedAgain() throws IOException {
    browser.go("/desk.html?b=" + book + "&p=1");
    browser.see(".stage .bar");
    browser.press("0");
    DemoBook.TrueRest truth = DemoBook.lastRest("page-01.json");
    JsonNode read = at(truth.x(), truth.y());
    String id = read.path("id").asString();
    choose(id);
    browser.click("[data-value=multi-rest]");
    browser.see("[data-value=multi-rest][aria-pressed=true]");
    browser.see("[data-bar='" + id + "'] .pill-count");
    int before = bar(id).path("count").asInt();

    browser.press("2", "7", Keys.ENTER);
    browser.see("[data-bar='" + id + "'] .pill-count", "27");
    assertThat(bar(id).path("count").asInt()).isEqualTo(27);
    browser.undo();
    browser.see("[data-bar='" + id + "'] .pill-count", Integer.toString(before));
    assertThat(bar(id).path("count").asInt()).isEqualTo(before);
    browser.redo();
    browser.see("[data-bar='" + id + "'] .pill-count", "27");

    browser.press(Integer.toString(truth.count()), Keys.ENTER);
    browser.see("[data-bar='" + id + "'] .pill-count", Integer.toString(truth.count()));
    assertThat(bar(id).path("count").asInt()).isEqualTo(truth.count());
    assertThat(bar(id).path("origin").asString()).isEqualTo("corrected");
    assertThat(browser.complaints()).isEmpty();
  }

  @Test
  @Order(3)
  void aBarlineIsAddedMovedAndRemoved() {
    browser.go("/desk.html?b=" + book + "&p=1");
    String id = firstOnPageOne("music").path("id").asString();
    int before = onPageOne().size();
    choose(id);
    browser.press("b", Keys.ENTER);
    browser.count(".overlay .bar", before + 1, 20);
    assertThat(onPageOne()).hasSize(before + 1);

    WebElement knob = browser.see(".handle[data-side=end] .handle-knob");
    String chosen = browser.attribute(".bar-form", "data-bar");
    double edge = rightEdge(chosen);
    browser.actions().moveToElement(knob).clickAndHold().moveByOffset(18, 0).release().perform();
    browser.waiting(20).until(d -> rightEdge(chosen) > edge + 5);

    browser.press(Keys.DELETE);
    browser.count(".overlay .bar", before, 20);
    assertThat(onPageOne()).hasSize(before);
    browser.click("#tab-history");
    assertThat(browser.all(".history li")).hasSizeGreaterThanOrEqualTo(3);
    assertThat(browser.complaints()).isEmpty();
  }

  @Test
  @Order(4)
  void everyPageIsVerified() {
    browser.go("/desk.html?b=" + book + "&p=1");
    for (int page = 1; page <= pages.size(); page++) {
      String shown = String.valueOf(page);
      browser
          .waiting(30)
          .withMessage(() -> "page " + shown + " was never shown")
          .until(d -> shown.equals(browser.see(".page-name input").getDomProperty("value")));
      browser.click("#tool-verify");
      browser.see("#tool-verify[aria-pressed=true]");
      if (page < pages.size()) {
        browser.click("#tool-page-after");
      }
    }
    assertThat(api.get("/api/books/" + book).path("state").asString()).isEqualTo("verified");
    browser.go("/");
    browser.see(".chip-good", "Checked");
  }

  @Test
  @Order(5)
  void aCutInWordsChangesTheTurns() {
    String turn = "/api/books/" + book + "/plan";
    String printed = turnAfterPageOne(turn).toString();
    browser.go("/road.html?b=" + book);
    Cut cut = cutAroundTheTurn();
    browser.type("#change-words", cut.words());
    browser.click("#read-words");
    browser.see(".line", "cut");
    assertThat(browser.all(".change")).as("nothing counts before it is accepted").isEmpty();
    browser.click("#accept-words");
    browser.count(".change", 1, 20);
    browser.see(".form-bar.cut");
    assertThat(turnAfterPageOne(turn).toString()).isNotEqualTo(printed);

    browser.go("/turns.html?b=" + book);
    browser.see(".gaps", "With the changes");
    browser.go("/road.html?b=" + book);
    browser.count(".change", 1, 20);
    browser.click("#undo-change");
    browser.count(".change", 0, 20);
    assertThat(turnAfterPageOne(turn).toString()).isEqualTo(printed);
    assertThat(browser.complaints()).isEmpty();
  }

  /** The words for a cut of the last rest on page 1 and what comes after it on the page. */
  /** A page that takes too long is given up; the others go on. */
  @Test
  @Order(6)
  void thePageBeingReadIsSkipped() {
    visit.newBook("Flotsam", "Bass");
    browser.files(
        "#choose-files", List.of(DemoBook.page("page-02.jpg"), DemoBook.page("page-03.jpg")));
    browser
        .waiting(60)
        .ignoring(ElementNotInteractableException.class)
        .withMessage("no page was given up")
        .until(
            d -> {
              // between two pages none is being read: then it is pressed once more
              browser.all("#skip-page").stream()
                  .filter(WebElement::isDisplayed)
                  .forEach(WebElement::click);
              return !browser.all(".thumb[data-state=failed]").isEmpty();
            });
    browser.see(".thumb[data-state=failed] .finding", "as you asked");
    // the second file may not have been opened yet
    browser.count(".thumb", 2, 120);
    browser.count(".thumb[data-state=waiting], .thumb[data-state=reading]", 0, 120);
    browser.count("#skip-page", 0, 20);
  }

  private Cut cutAroundTheTurn() {
    List<JsonNode> page = onPageOne();
    JsonNode last = page.get(page.size() - 1);
    JsonNode first = last;
    for (JsonNode b : page) {
      if (b.path("content").asString().equals("multi-rest")) {
        first = b;
      }
    }
    String number =
        api.get("/api/books/" + book + "/map").path("numbers").path(0).path("label").asString();
    int to = last.path("number").asInt() + last.path("count").asInt() - 1;
    return new Cut("No. " + number + ": cut " + first.path("number").asInt() + " to " + to);
  }

  private record Cut(String words) {}

  private JsonNode turnAfterPageOne(String path) {
    for (JsonNode turn : api.get(path).path("turns")) {
      if (turn.path("fromPage").asInt() == 1) {
        return turn;
      }
    }
    throw new AssertionError("no turn after page 1");
  }

  private void choose(String id) {
    browser.point("[data-bar='" + id + "'] .bar-field");
    browser.see(".bar-form[data-bar='" + id + "']");
  }

  private double rightEdge(String id) {
    return bar(id).path("outline").path(1).path(0).asDouble();
  }

  private List<JsonNode> bars() {
    JsonNode all = api.get("/api/books/" + book + "/map").path("bars");
    return StreamSupport.stream(all.spliterator(), false).toList();
  }

  private List<JsonNode> onPageOne() {
    return bars().stream().filter(b -> b.path("page").asInt() == 1).toList();
  }

  private JsonNode bar(String id) {
    return bars().stream()
        .filter(b -> b.path("id").asString().equals(id))
        .findFirst()
        .orElseThrow();
  }

  /** The bar read on page 1 whose outline, taken as a box, holds a place. */
  private JsonNode at(double x, double y) {
    return onPageOne().stream()
        .filter(
            b ->
                b.path("outline").path(0).path(0).asDouble() <= x
                    && b.path("outline").path(2).path(0).asDouble() >= x
                    && b.path("outline").path(0).path(1).asDouble() - 20 <= y
                    && b.path("outline").path(2).path(1).asDouble() + 20 >= y)
        .findFirst()
        .orElseThrow(() -> new AssertionError("no bar was read where the rest stands"));
  }

  private JsonNode firstOnPageOne(String content) {
    return onPageOne().stream()
        .filter(b -> b.path("content").asString().equals(content))
        .findFirst()
        .orElseThrow(() -> new AssertionError("no " + content + " was read on page 1"));
  }
}
