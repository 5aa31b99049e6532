package org.barmap.browser.room;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import org.barmap.browser.Api;
import org.barmap.browser.Browser;
import org.barmap.browser.DemoBook;
import org.barmap.browser.ReadyBook;
import org.barmap.browser.Visit;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;

/**
 * What is set, ticked or renamed in another window is seen in this one without a step of its own,
 * and the keys stay where they were.
 */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class OtherWindowBrowserTest {

  /** Sends past the page's own code, as another window does. */
  private static final String SEND =
      """
      const path = "/api/books/BOOK" + "ROUTE";
      const of = path.endsWith("/marks") ? undefined : (await fetch(path)).headers.get("ETag");
      const sent = await fetch(path, { method: "METHOD", body: JSON.stringify(SAID), headers: { "Content-Type": "application/json", ...(of ? { "If-Match": of } : {}) } });
      done(String(sent.status));
      """;

  /** A room says where it is as soon as it hears of the others. */
  private static final String LISTENS =
      "return performance.getEntriesByType('resource').some((e) => e.name.endsWith('/here'))";

  private Visit visit;
  private Browser browser;
  private String book;

  @BeforeAll
  void open(@TempDir Path data) throws IOException {
    book = ReadyBook.into(data);
    visit = Visit.to(data, 1280, 900);
    browser = visit.browser();
    Api api = visit.api();
    DemoBook.changesInto(api, book);
  }

  @AfterAll
  void close() {
    visit.close();
  }

  private void inAnotherWindow(String method, String route, String said) {
    browser
        .waiting(30)
        .withMessage("it never listened")
        .until(d -> browser.script(LISTENS).equals(true));
    String code =
        SEND.replace("BOOK", book)
            .replace("ROUTE", route)
            .replace("METHOD", method)
            .replace("SAID", said);
    assertThat(browser.answer(code)).isEqualTo("200");
  }

  private void hasTheKeys(String css) {
    assertThat(browser.script("return document.activeElement.matches(arguments[0])", css))
        .as("the keys are with " + browser.script("return document.activeElement.outerHTML"))
        .isEqualTo(true);
  }

  private void enter(String room, String focused) {
    browser.go(room.formatted(book));
    browser.see(focused);
    browser.script("document.querySelector(arguments[0]).focus()", focused);
    hasTheKeys(focused);
  }

  /** How pages lie is set in another window: a room is drawn anew, and the keys stay. */
  private void drawnAnew(String room, String focused, String rightFirst, String leftFirst) {
    enter(room, focused);
    browser.see(rightFirst);
    inAnotherWindow("PUT", "/settings", "{firstPage: 'left'}");
    browser.see(leftFirst);
    hasTheKeys(focused);
    inAnotherWindow("PUT", "/settings", "{firstPage: 'right'}");
    browser.see(rightFirst);
  }

  @Test
  void theRoadMapIsDrawnAnewByItself() {
    drawnAnew(
        "/road.html?b=%s",
        ".change[data-change] input", "[data-fold='2'].turned", "[data-fold='3'].turned");
  }

  @Test
  void theTurnsAreWorkedOutAnewByThemselves() {
    drawnAnew(
        "/turns.html?b=%s", "#turn-settings", ".turn[data-turn^='1>2']", ".turn[data-turn^='2>3']");
  }

  /** Under a player's eyes nothing changes before it is taken. */
  @Test
  void theStandOffersThePlanThatFollows() {
    browser.go("/stand.html?b=" + book);
    browser.click("#stand-begin");
    inAnotherWindow("PUT", "/settings", "{firstPage: 'left'}");
    browser.see("#stand-fresh");
    hasTheKeys("#stand-on");
    inAnotherWindow("PUT", "/settings", "{firstPage: 'right'}");
  }

  @Test
  void aMarkTickedElsewhereIsTickedHere() {
    enter("/turns.html?b=%s#pencil", ".view .tick-line input");
    browser.see(".view p", "0 of ");
    inAnotherWindow(
        "POST",
        "/marks",
        """
        await fetch("/api/books/%s/plan").then((r) => r.json()).then((p) => ({ written: true, mark: p.pencil[1] }))"""
            .formatted(book));
    browser.see(".view p", "1 of ");
    hasTheKeys(".view .tick-line input");
  }

  @Test
  void aNewTitleIsReadEverywhere() {
    for (String room : new String[] {"book", "road", "turns", "desk"}) {
      browser.go("/" + room + ".html?b=" + book);
      browser.see(".header", "Saltmarsh");
      inAnotherWindow("PATCH", "", "{title: 'Saltmarsh, " + room + "'}");
      browser.see(".header", "Saltmarsh, " + room);
    }
  }
}
