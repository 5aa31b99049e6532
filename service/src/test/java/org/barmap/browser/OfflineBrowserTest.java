package org.barmap.browser;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.MethodOrderer;
import org.junit.jupiter.api.Order;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.TestMethodOrder;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.Keys;
import tools.jackson.databind.JsonNode;

/**
 * A night without the service: killed, the window closed and opened again, the rooms walked, edits
 * made.
 */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
@TestMethodOrder(MethodOrderer.OrderAnnotation.class)
class OfflineBrowserTest {

  /** Each room, and something that is only there when the book is shown. */
  private static final Map<String, String> ROOMS = rooms();

  private static final String KEPT =
      "return localStorage.getItem('barmap.kept.' + arguments[0]) !== null";

  private Path data;
  private int port;
  private RunningService service;
  private Browser browser;
  private Api api;
  private String book;

  private static Map<String, String> rooms() {
    Map<String, String> rooms = new LinkedHashMap<>();
    rooms.put("/book.html", ".thumb");
    rooms.put("/desk.html", ".bar-field");
    rooms.put("/road.html", ".form-field");
    rooms.put("/turns.html", ".turn");
    rooms.put("/practice.html", "#click-go");
    rooms.put("/stand.html", "#stand-begin");
    rooms.put("/align.html", "#align-none");
    return rooms;
  }

  @BeforeAll
  void open(@TempDir Path folder) throws IOException {
    data = folder;
    book = ReadyBook.into(data);
    // a port of its own: while the service is down no other one may answer in its place
    try (ServerSocket free = new ServerSocket(0)) {
      port = free.getLocalPort();
    }
    service = ofItsOwn("");
    api = new Api(service);
    browser = Browser.open(service, 1280, 900);
    DemoBook.changesInto(api, book);
  }

  @AfterAll
  void close() {
    browser.close();
    service.close();
  }

  /** A process, which can be killed. */
  private RunningService ofItsOwn(String before) {
    return RunningService.start(data, before, List.of("--port", String.valueOf(port)));
  }

  private void again() {
    service = RunningService.here(data, Optional.of(port));
  }

  /** Only the book's own page is opened; from then on all rooms work, in another window too. */
  @Test
  @Order(1)
  void allRoomsOfABookThatWasOpenedWorkWithoutTheService() {
    browser.go("/book.html?b=" + book);
    long begun = System.nanoTime();
    browser.waiting(120).until(d -> browser.script(KEPT, book).equals(true));
    System.out.printf(
        Locale.ROOT,
        "kept: the demo book in %.1f s, %s%n",
        (System.nanoTime() - begun) / 1e9,
        use());
    service.kill();
    browser.anotherWindow();
    browser.size(1280, 900);
    begun = System.nanoTime();
    ROOMS.forEach(
        (room, thing) -> {
          browser.go(room + "?b=" + book);
          browser.see(thing);
          browser.see(".net-kept", "not answering");
        });
    System.out.printf(
        Locale.ROOT,
        "without the service: %d rooms walked in %.1f s%n",
        ROOMS.size(),
        (System.nanoTime() - begun) / 1e9);
    browser.go("/desk.html?b=" + book);
    browser.see(".bar-field");
    assertThat(pictures()).as("the page's picture is shown").isEqualTo(true);
    browser.go("/");
    browser.see(".book h2", "Saltmarsh");
    browser.go("/stand.html?b=" + book);
    browser.click("#stand-begin");
    browser.press(Keys.PAGE_DOWN, Keys.PAGE_DOWN);
    assertThat(browser.see(".stand-big").getText()).isEqualTo("1");
  }

  private Object pictures() {
    return browser.asyncScript(
        "const done = arguments[arguments.length - 1];"
            + "const image = new Image(); image.onload = () => done(true); image.onerror = () => done(false);"
            + "image.src = document.querySelector('image').getAttribute('href')");
  }

  private Object use() {
    return browser.asyncScript(
        "const done = arguments[arguments.length - 1];"
            + "navigator.storage.estimate().then(e => done((e.usage / 1e6).toFixed(1) + ' MB in the store'))");
  }

  /** What is changed without the service is seen at once, in every room, and in another window. */
  @Test
  @Order(2)
  void editsMadeWithoutTheServiceAreSeenAtOnce() {
    String bar = correctedAtTheDesk();
    changedAtTheRoadMap();
    browser.go("/turns.html?b=" + book + "#pencil");
    browser.see(".waits-line", "This plan is the one from before");
    browser.click(".item input[type=checkbox]");
    browser.see(".item .waits-sign");
    browser.see("#net-edits", "5 edits to be sent");
    browser.anotherWindow();
    browser.size(1280, 900);
    browser.go("/turns.html?b=" + book + "#pencil");
    browser.see(".item .waits-sign");
    assertThat(browser.script("return document.querySelector('.item input').checked"))
        .isEqualTo(true);
    browser.go("/stand.html?b=" + book);
    browser.see(".waits-line", "wait for barmap to answer");
    browser.click("#stand-begin");
    browser.see("#stand-waits", "Without 4 edits");
    assertThat(browser.see(".stand").getText())
        .as("an old plan is whole: what was corrected since is not mixed into it")
        .doesNotContain("17 bars");
    browser.go("/desk.html?b=" + book + "&p=1");
    browser.see("[data-bar='" + bar + "'].waits .pill-count", "17");
    browser.see("#tool-verify[aria-pressed=true]");
    assertThat(Axe.violations(browser)).isEmpty();
  }

  /** A count, taken back and made again; the page checked. Returns the bar. */
  private String correctedAtTheDesk() {
    browser.go("/desk.html?b=" + book + "&p=1");
    browser.see(".bar-field");
    String bar =
        browser.script("return document.querySelector('.pill-count').closest('.bar').dataset.bar")
            + "";
    String count = "[data-bar='" + bar + "'] .pill-count";
    String before = browser.see(count).getText();
    browser.point("[data-bar='" + bar + "'] .bar-field");
    browser.see(".bar-form[data-bar='" + bar + "']");
    browser.press("17", Keys.ENTER);
    browser.see(count, "17");
    browser.see(".bar-form .waits-sign");
    browser.see(".waits-line", "1 correction waits for barmap to answer");
    browser.undo();
    browser.see(count, before);
    browser.count(".waits-line", 0, 20);
    browser.redo();
    browser.see(count, "17");
    browser.press("v");
    browser.see("#tool-verify[aria-pressed=true]");
    browser.see("#net-edits", "2 edits to be sent");
    return bar;
  }

  /** A change switched off, another one taken out and brought back, words kept as a note. */
  private void changedAtTheRoadMap() {
    browser.go("/road.html?b=" + book);
    browser.see(".waits-line", "2 edits wait");
    browser.see(".change");
    int changes = browser.all(".change").size();
    browser.click(".change input[type=checkbox]");
    browser.see(".change.off .waits-sign");
    browser.click(".change:not(.off) [aria-label^='Delete']");
    browser.count(".change", changes - 1, 20);
    browser.click(".toast-action");
    browser.count(".change", changes, 20);
    browser.type("#change-words", "No. 7: watch the new dancer at 40");
    browser.click("#read-words");
    browser.see("#words-later", "barmap is not answering");
    browser.click("#keep-words");
    browser.count(".change", changes + 1, 20);
    browser.see("#net-edits", "4 edits to be sent");
    browser.click("[data-edit^='waiting-']");
    browser.type("dialog [name=text]", "the new dancer comes from the left");
    browser.click("dialog [type=submit]");
    browser.see(".change", "from the left");
    browser.see("#net-edits", "4 edits to be sent");
    assertThat(Axe.violations(browser)).isEmpty();
  }

  @Test
  @Order(3)
  void editsMadeWithoutTheServiceAreSentInOrderAndOnce() {
    int before = changeCount();
    browser.go("/road.html?b=" + book);
    browser.see(".net-kept");
    edit("POST", "/changes", "{number: '7', kind: 'cut', first: '30', last: '31'}");
    browser.see("#net-edits", "6 edits to be sent");
    again(); // it is tried again and again while a page is open
    browser.see(".toast", "6 edits kept in this browser are made now");
    JsonNode changes = api.get("/api/books/" + book + "/changes").path("changes");
    assertThat(changes).hasSize(before + 2);
    assertThat(changes.path(before).path("kind").asString()).isEqualTo("note");
    assertThat(changes.path(before).path("text").asString()).contains("from the left");
    assertThat(changes.path(before + 1).path("kind").asString()).isEqualTo("cut");
    assertThat(changes).filteredOn(c -> !c.path("on").asBoolean(true)).hasSize(1);
    assertThat(api.get("/api/books/" + book + "/marks").path("written")).hasSize(1);
    assertThat(api.get("/api/books/" + book).path("verifiedPages").asInt()).isEqualTo(1);
    assertThat(api.get("/api/books/" + book + "/export/map").path("bars"))
        .anyMatch(b -> b.path("count").asInt(1) == 17);
    browser.count("#net-edits:not([hidden])", 0, 20);
    browser.count(".waits-sign, .waits-line", 0, 20);
  }

  /** Nineteen changes and one more are the demo show's: changes.json. */
  private int changeCount() {
    return 20;
  }

  /** Opens the road map, and returns where the changes are. */
  private String onTheRoad() {
    browser.go("/road.html?b=" + book);
    browser.see("main h1");
    return "/api/books/" + book + "/changes";
  }

  /** What somebody else changed meanwhile is not run over, and the edit is not dropped either. */
  @Test
  @Order(4)
  void anEditThatClashesIsShownAndMadeWhenThePlayerSaysSo() {
    String path = onTheRoad();
    String seen = api.revision(path);
    service.kill();
    edit("POST", "/changes", "{number: '5', kind: 'remind', first: '20', what: 'watch'}", seen);
    browser.see("#net-edits", "1 edit to be sent");
    browser.open(
        "about:blank"); // an open page would send it before the other player changes the book
    again();
    api.post(path, Map.of("number", "5", "kind", "remind", "first", "21", "what", "cue"), seen);
    int before = api.get(path).path("changes").size();
    browser.go("/road.html?b=" + book);
    browser.see("#net-edits", "1 edit could not be made");
    assertThat(api.get(path).path("changes")).hasSize(before);
    browser.click("#net-edits");
    browser.see(".net-list", "Someone changed the book meanwhile");
    assertThat(Axe.violations(browser)).isEmpty();
    browser.click(".net-again");
    browser.see(".net-list", "Nothing waits any more");
    assertThat(api.get(path).path("changes")).hasSize(before + 1);
  }

  /**
   * What this browser keeps of a book is some seconds older than its last edit: an edit made by
   * that when the service dies is no clash with one's own.
   */
  @Test
  @Order(5)
  void onesOwnEditThatIsNotKeptYetIsNobodysClash() {
    String path = onTheRoad();
    String kept = api.revision(path);
    int before = api.get(path).path("changes").size();
    String seven = "{number: '7', kind: 'remind', first: '21', what: 'watch'}";
    assertThat(said("POST", "/changes", seven, kept)).isEqualTo("made");
    service.kill();
    edit("POST", "/changes", "{number: '7', kind: 'remind', first: '22', what: 'cue'}", kept);
    again();
    browser.see(".toast", "1 edit kept in this browser is made now");
    assertThat(api.get(path).path("changes")).hasSize(before + 2);
  }

  /**
   * A newer version of the pages waits while a page of the older one is open, from room to room
   * too; when the last one is closed the browser lets it in.
   */
  @Test
  @Order(6)
  void anUpdateNeverReplacesAPageInUse(@TempDir Path other) throws IOException {
    newerPages(other);
    browser.go("/stand.html?b=" + book);
    browser.click("#stand-begin");
    service.kill();
    service = ofItsOwn(other.toString());
    browser.asyncScript(
        "const done = arguments[arguments.length - 1];"
            + "navigator.serviceWorker.getRegistration().then(r => r.update()).then(() => done(), e => done(String(e)))");
    browser
        .waiting(30)
        .withMessage(() -> "the newer version never waited: " + waits())
        .until(d -> waits().equals("true"));
    assertThat(browser.script("return document.body.classList.contains('stand-is-on')"))
        .isEqualTo(true);
    assertThat(source()).as("a page in use goes on with its own files").isEqualTo(false);
    browser.go("/turns.html?b=" + book);
    browser.see(".turn");
    assertThat(source()).as("nor does it come in from room to room").isEqualTo(false);
    browser.anotherWindow();
    // watched from an address that the worker doesn't serve, as it is no page of the older version
    browser.pastWorkers(true);
    browser.go("/site.json");
    browser
        .waiting(30)
        .withMessage(() -> "the newer version never came in: " + waits())
        .until(d -> waits().equals("false,activated"));
    browser.pastWorkers(false);
    browser.go("/turns.html?b=" + book);
    browser.see(".turn");
    assertThat(source()).as("at the next opening it is there").isEqualTo(true);
  }

  private Object waits() {
    return browser.asyncScript(
        "const done = arguments[arguments.length - 1];"
            + "navigator.serviceWorker.getRegistration().then(r => done(String(Boolean(r.waiting)) + (r.waiting ? '' : [r.installing?.state, r.active?.state].join())))");
  }

  private Object source() {
    return browser.asyncScript(
        "const done = arguments[arguments.length - 1];"
            + "fetch('/js/core/bus.js').then(r => r.text()).then(t => done(t.includes('newer than before')))");
  }

  private static void newerPages(Path folder) throws IOException {
    Path site = Path.of(System.getProperty("barmap.home", ".."), "web-static", "site");
    try (Stream<Path> files = Files.walk(site)) {
      files.forEach(file -> copy(file, folder.resolve("site").resolve(site.relativize(file))));
    }
    Path bus = folder.resolve("site/js/core/bus.js");
    Files.writeString(bus, Files.readString(bus) + "// newer than before\n");
  }

  private static void copy(Path from, Path to) {
    try {
      if (Files.isDirectory(from)) {
        Files.createDirectories(to);
      } else {
        Files.copy(from, to);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** A book that is put away takes what was kept of it along. */
  @Test
  @Order(7)
  void nothingStaysInTheBrowserOfABookInTheBin() {
    browser.go("/");
    browser.click("[aria-label^='Put Saltmarsh']");
    browser.see(".toast", "in the bin");
    browser
        .waiting(20)
        .until(
            d ->
                browser
                    .asyncScript(
                        "const done = arguments[arguments.length - 1];"
                            + "caches.open('barmap-data').then(c => c.keys()).then(keys =>"
                            + " done(keys.filter(k => k.url.includes('/api/books/')).length))")
                    .equals(0L));
  }

  private void edit(String method, String route, String body) {
    edit(method, route, body, "");
  }

  /**
   * Makes an edit as the rooms do: through what talks to the service, for the revision they saw.
   */
  private void edit(String method, String route, String body, String seen) {
    assertThat(said(method, route, body, seen)).isEqualTo("Kept");
  }

  private Object said(String method, String route, String body, String seen) {
    return browser.asyncScript(
        "const done = arguments[arguments.length - 1];"
            + "import('/js/core/api.js').then(async api => {"
            + " const path = api.bookPath('"
            + book
            + "');"
            + " const match = '"
            + seen.replace("\"", "")
            + "' || (await api.call('GET', path + '/changes')).revision;"
            + " await api.call('"
            + method
            + "', path + '"
            + route
            + "', {body: "
            + body
            + ", match});"
            + "}).then(() => done('made'), e => done(e.name))");
  }
}
