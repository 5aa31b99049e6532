package org.barmap.browser.print;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import org.barmap.browser.Api;
import org.barmap.browser.Browser;
import org.barmap.browser.ReadyBook;
import org.barmap.browser.RunningService;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.Keys;
import tools.jackson.databind.JsonNode;

/**
 * The line dies after the service took an edit and before it answered: whatever the player does
 * then, the edit is made once, or taken back, and never by half.
 */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class LostAnswerBrowserTest {

  private String path = "";
  private String book = "";
  private RunningService service;
  private LossyLine line;
  private Browser browser;
  private Api api;

  @SuppressWarnings("NullAway.Init") // before all tests
  LostAnswerBrowserTest() {}

  @BeforeAll
  void open(@TempDir Path data) throws IOException {
    book = ReadyBook.into(data);
    path = "/api/books/" + book;
    service = RunningService.start(data);
    api = new Api(service);
    line = new LossyLine(service.base());
    browser = Browser.open(line.base(), 1440, 900);
    browser.go("/open?key=" + service.key());
  }

  @AfterEach
  void mend() {
    line.mend();
    browser.block();
  }

  @AfterAll
  void close() throws IOException {
    browser.close();
    line.close();
    service.close();
  }

  /**
   * Taken back while nothing answers: when it does the edit, which had come, is taken back there.
   */
  @Test
  void whatHadComeIsTakenBackWhenTheServiceAnswers() throws Exception {
    JsonNode rest = rest();
    int before = rest.path("count").asInt();
    int steps = steps();
    correctedAndLost(rest);
    assertThat(count(rest)).as("the service took it").isEqualTo(17);
    browser.undo();
    browser.see(pill(rest), String.valueOf(before));
    browser.see("#net-edits", "1 step back to be sent");
    assertThat(count(rest)).as("nobody could tell it yet").isEqualTo(17);
    answersAgain();
    browser.waiting(20).until(d -> count(rest) == before);
    browser.count("#net-edits:not([hidden])", 0, 20);
    assertThat(steps()).as("made, and taken back").isEqualTo(steps);
    browser.see(pill(rest), String.valueOf(before));
  }

  /** Made again while nothing answers: it is there, once, whether the first had come or not. */
  @Test
  void whatIsTakenBackAndMadeAgainIsThereOnce() throws Exception {
    JsonNode rest = rest();
    int steps = steps();
    correctedAndLost(rest);
    browser.undo();
    browser.see("#net-edits", "1 step back to be sent");
    browser.redo();
    browser.see(pill(rest), "17");
    answersAgain();
    browser.count("#net-edits:not([hidden])", 0, 20);
    assertThat(count(rest)).isEqualTo(17);
    assertThat(steps()).isEqualTo(steps + 1);
    browser.undo();
    browser.waiting(20).until(d -> count(rest) == rest.path("count").asInt());
  }

  /** What never came is dropped, and can't come later. */
  @Test
  void whatNeverCameIsGone() throws Exception {
    JsonNode rest = rest();
    int steps = steps();
    at(rest);
    browser.block("*/api/*");
    corrected(rest);
    browser.undo();
    browser.see("#net-edits", "1 step back to be sent");
    browser.block();
    answersAgain();
    browser.count("#net-edits:not([hidden])", 0, 20);
    assertThat(count(rest)).isEqualTo(rest.path("count").asInt());
    assertThat(steps()).isEqualTo(steps);
  }

  /** The line is there again before it is taken back: then the service takes it back at once. */
  @Test
  void whatHadComeIsTakenBackAtOnceWhereItAnswers() throws Exception {
    JsonNode rest = rest();
    int before = rest.path("count").asInt();
    correctedAndLost(rest);
    line.mend();
    browser.undo();
    browser.waiting(20).until(d -> count(rest) == before);
    browser.see(pill(rest), String.valueOf(before));
    browser.count("#net-edits:not([hidden])", 0, 20);
  }

  /**
   * A change said otherwise before it was known to have come stands there once, as it was said
   * last.
   */
  @Test
  void aChangeSaidOtherwiseIsThereOnce() throws Exception {
    browser.go("/road.html?b=" + book);
    browser.see(".form-bar");
    int before = changes().size();
    browser.type("#change-words", "No. 7: watch at 40");
    browser.click("#read-words");
    browser.see(".line", "watch");
    line.breakAfter("POST " + path + "/changes");
    browser.click("#accept-words");
    line.isLost();
    browser.see("#net-edits", "1 edit to be sent");
    assertThat(changes()).hasSize(before + 1);
    browser.click("[data-change^='waiting-'] input[type=checkbox]");
    browser.see(".change.off .waits-sign");
    answersAgain();
    browser.count("#net-edits:not([hidden])", 0, 20);
    assertThat(changes()).hasSize(before + 1);
    assertThat(changes().path(before).path("on").asBoolean(true)).isFalse();
  }

  private void answersAgain() {
    line.mend();
    browser.script("dispatchEvent(new Event('online'))"); // otherwise some seconds later
  }

  private void correctedAndLost(JsonNode rest) throws InterruptedException {
    at(rest);
    line.breakAfter("POST " + path + "/corrections");
    corrected(rest);
    line.isLost();
  }

  private void at(JsonNode rest) {
    String id = rest.path("id").asString();
    browser.go("/desk.html?b=" + book + "&p=1&bar=" + id);
    browser.see(".bar-form[data-bar='" + id + "']");
  }

  private void corrected(JsonNode rest) {
    browser.press("17", Keys.ENTER);
    browser.see(pill(rest), "17");
    browser.see("#net-edits", "1 edit to be sent");
  }

  private static String pill(JsonNode rest) {
    return "[data-bar='" + rest.path("id").asString() + "'] .pill-count";
  }

  private JsonNode rest() {
    for (JsonNode bar : api.get(path + "/map").path("bars")) {
      if (bar.path("count").asInt(1) > 1) {
        return bar;
      }
    }
    throw new AssertionError("no rest");
  }

  private int count(JsonNode rest) {
    for (JsonNode bar : api.get(path + "/map").path("bars")) {
      if (bar.path("id").equals(rest.path("id"))) {
        return bar.path("count").asInt();
      }
    }
    throw new AssertionError("it is gone");
  }

  /** How many steps of the map could be taken back. */
  private int steps() {
    return api.get(path + "/history").path("undo").asInt();
  }

  private JsonNode changes() {
    return api.get(path + "/changes").path("changes");
  }

  /** Two edits of one millisecond are sent as they were made. */
  @Test
  void editsOfOneMillisecondKeepTheirOrder() {
    browser.go("/docs/index.html");
    Object order =
        browser.asyncScript(
            """
            const done = arguments[arguments.length - 1];
            import("/js/core/outbox.js").then(async ({ drop, newKey, put, waiting }) => {
              const wanted = [];
              const all = [];
              for (let i = 0; i < 12; i++) {
                const key = newKey();
                wanted.push(key);
                all.push(put({ key, at: 1000, method: "POST", path: "/api/books/none/changes", state: "refused" }));
              }
              await Promise.all(all);
              const found = (await waiting()).map((e) => e.key);
              for (const key of wanted) await drop(key);
              done(String(found) === String(wanted));
            }, (e) => done(String(e)));
            """);
    assertThat(order).isEqualTo(true);
  }
}
