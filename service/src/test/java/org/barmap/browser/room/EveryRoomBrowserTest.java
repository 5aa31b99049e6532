package org.barmap.browser.room;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.barmap.browser.Api;
import org.barmap.browser.Axe;
import org.barmap.browser.Browser;
import org.barmap.browser.DemoBook;
import org.barmap.browser.ReadyBook;
import org.barmap.browser.RunningService;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.MethodOrderer;
import org.junit.jupiter.api.Order;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.TestMethodOrder;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.Keys;

/**
 * Every room by every size and theme: nothing stands in anybody's way (axe-core), nothing is wider
 * than the window, and whatever is pressed, the keys stay with something. Each room is loaded once.
 * With {@code -Dbarmap.shots=FOLDER} each is photographed too, to be looked at.
 */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
@TestMethodOrder(MethodOrderer.OrderAnnotation.class)
class EveryRoomBrowserTest {

  private static final int[][] SIZES = {{1440, 900}, {820, 1180}, {390, 844}};
  private static final List<String> THEMES = List.of("light", "dark");

  /**
   * A room.
   *
   * @param address with {@code BOOK} where a book is named
   * @param seen what is there when it is shown
   * @param press what is pressed then, empty for nothing
   */
  private record Room(String name, String address, String seen, String press) {

    /** Tells whether it is the list of all routes, which takes as long as all other rooms. */
    boolean isLong() {
      return name.equals("docs-api");
    }
  }

  private static final List<Room> ROOMS =
      List.of(
          new Room("shelf", "/", ".book", ""),
          new Room("book", "/book.html?b=BOOK", ".thumb", ""),
          new Room("book-more", "/book.html?b=BOOK", ".thumb", "#save-as > summary"),
          new Room("book-new", "/book.html?b=EMPTY", ".lead-text", ""),
          new Room("desk", "/desk.html?b=BOOK", ".bar-field", ""),
          new Room("desk-bar", "/desk.html?b=BOOK&p=2", ".bar-field", ".bar-field"),
          new Room("desk-new", "/desk.html?b=EMPTY", ".dead-end", ""),
          new Room("road", "/road.html?b=BOOK", ".form-field", ""),
          new Room("road-bars", "/road.html?b=BOOK", ".form-field", ".number-tools button"),
          new Room("road-new", "/road.html?b=EMPTY", ".waiting a", ""),
          new Room("turns", "/turns.html?b=BOOK", ".turn", ""),
          new Room("rests", "/turns.html?b=BOOK#rests", ".item", ""),
          new Room("hands", "/turns.html?b=BOOK#instruments", ".item", ""),
          new Room("ahead", "/turns.html?b=BOOK#ahead", ".view li", ""),
          new Room("night", "/turns.html?b=BOOK#night", ".night", ""),
          new Room("since", "/turns.html?b=BOOK#since", ".since-part", ""),
          new Room("write", "/turns.html?b=BOOK#pencil", ".tick-line", ""),
          new Room("erase", "/turns.html?b=BOOK#erase", ".view p", ""),
          new Room("align", "/align.html?b=BOOK", "#align-head", ""),
          new Room("align-new", "/align.html?b=EMPTY", "#align-none", ""),
          new Room("practice", "/practice.html?b=BOOK", "#click-go", ""),
          new Room("stand-front", "/stand.html?b=BOOK", "#stand-begin", ""),
          new Room("stand", "/stand.html?b=BOOK", "#stand-begin", "#stand-begin"),
          new Room("stand-new", "/stand.html?b=EMPTY", ".dead-end", ""),
          new Room("phone", "/phone.html?b=BOOK", "main button", ""),
          new Room("docs", "/docs/index.html", "main h1", ""),
          new Room("docs-api", "/docs/api.html", "main h2", ""),
          new Room("docs-formats", "/docs/formats.html", "main h2", ""),
          new Room("docs-consumers", "/docs/consumers.html", "main h1", ""),
          new Room("docs-library", "/docs/library.html", "main h1", ""),
          new Room("docs-regions", "/docs/regions.html", "main h1", ""),
          new Room("docs-engines", "/docs/engines.html", "main h1", ""),
          new Room("docs-following", "/docs/following.html", "main h1", ""),
          new Room("docs-run", "/docs/run.html", "main h1", ""),
          new Room("nowhere", "/nothing.html", ".dead-end", ""),
          new Room("no-book", "/desk.html?b=nobody", ".dead-end", ""));

  /** Every room in every size and theme, and everything pressed; otherwise each in two of six. */
  private static final boolean ALL = Boolean.getBoolean("barmap.rooms");

  private static final Set<String> PRESSED =
      Set.of(
          "shelf",
          "book",
          "desk",
          "desk-bar",
          "road",
          "road-bars",
          "turns",
          "since",
          "write",
          "align",
          "practice",
          "stand-front",
          "stand",
          "phone");

  /**
   * Presses what can be pressed, one of a kind, and says after what the keys were with nothing.
   * What leaves the room or opens a window of the system is left alone.
   */
  private static final String PRESS =
      """
      const done = arguments[arguments.length - 1];
      const real = window.fetch;
      let open = 0;
      window.fetch = (...all) => { open++; return real(...all).finally(() => open--); };
      const frame = () => new Promise((r) => requestAnimationFrame(() => requestAnimationFrame(r)));
      const quiet = async () => { do await frame(); while (open > 0); await frame(); };
      const named = (b) => `${b.tagName} ${b.id || b.getAttribute("aria-label") || b.textContent}`.replace(/\\d+/g, "#").slice(0, 50);
      const kind = (b) => `${b.tagName} ${b.className} ${b.getAttribute("role")} ${b.id} ${b.closest("section, nav, details")?.className}`.replace(/\\d+/g, "#");
      const things = "main button, main summary, main input[type=checkbox], main [role=button], main [role=tab], header button";
      const left = "[aria-label^='Put '], [id$='-files'], #align-remove";
      (async () => {
        const seen = new Set();
        const lost = [];
        let n = 0;
        for (; n < MOST; n++) {
          const b = [...document.querySelectorAll(things)].find((e) => e.checkVisibility() && !e.disabled && !e.matches(left) && !seen.has(kind(e)));
          if (!b) break;
          seen.add(kind(b));
          b.focus();
          if (b.click) b.click(); else b.dispatchEvent(new MouseEvent("click", { bubbles: true, cancelable: true }));
          await quiet();
          if (document.activeElement === document.body) lost.push(named(b));
          const dialog = document.querySelector("dialog[open]");
          if (!dialog) continue;
          dialog.querySelector("[value=cancel], .btn-quiet, button")?.click();
          await quiet();
          if (document.querySelector("dialog[open]")) document.querySelector("dialog[open]").close();
          await quiet();
          if (document.activeElement === document.body) lost.push(`${named(b)}, its window closed`);
        }
        return [n, ...lost];
      })().then(done, (e) => done([0, String(e)]));
      """;

  /** The least size of a target for a finger: WCAG 2.2, success criterion 2.5.5 (level AAA). */
  private static final int FINGER = 44;

  private static final String SMALL_TARGETS =
      """
      const all = 'button, nav a, select, summary, label:has([type=radio]), input:not([type=checkbox]):not([type=radio]):not([type=file])';
      return [...document.querySelectorAll(all)]
        .filter(e => e.checkVisibility() && e.getBoundingClientRect().height > 0)
        .filter(e => e.getBoundingClientRect().height < arguments[0])
        .map(e => e.outerHTML)
      """;

  private String book = "";
  private String empty = "";
  private RunningService service;
  private Browser browser;

  @SuppressWarnings("NullAway.Init") // before all tests
  EveryRoomBrowserTest() {}

  @BeforeAll
  void open(@TempDir Path data) throws IOException {
    book = ReadyBook.into(data);
    service = RunningService.here(data);
    browser = Browser.open(service, 1440, 900);
    Api api = new Api(service);
    DemoBook.changesInto(api, book);
    empty =
        api.post("/api/books", Map.of("title", "Next Show", "part", "Bass")).path("id").asString();
    browser.go("/docs/index.html");
    Object failed = browser.asyncScript(BESIDE.replace("BOOK", book));
    assertThat(failed).isEqualTo("");
  }

  @AfterAll
  void close() {
    browser.close();
    service.close();
  }

  /** The director's bar numbers beside the book's: four more from C on in No. 1. */
  private static final String BESIDE =
      """
      const done = arguments[arguments.length - 1];
      import("/js/core/api.js").then(async ({ call }) => {
        const path = "/api/books/BOOK/align";
        const { data } = await call("POST", path + "/list", { body: { text: `1 Flood Tide: A 14, B 26, C 41, D 55, E 77, F 106, end 118\n2 Salt and Silver: A 1, B 12, C 32, D 45, end 115` } });
        const { revision } = await call("GET", path);
        await call("PUT", path, { body: { book: data.id, pins: [] }, match: revision });
      }).then(() => done(), (e) => done(String(e)));
      """;

  /** What is to be looked out for names what the director changed. */
  @Test
  @Order(0)
  void lookingAheadKnowsCutsVampsAndWatches() {
    browser.go("/turns.html?b=" + book + "#ahead");
    browser.see(".view li", "Cut: from bar 91 straight to");
    browser.see(".view li", "Vamp 10");
    browser.see(".view li", "atch");
  }

  @Test
  @Order(1)
  void nothingStandsInTheWayInAnyRoomSizeOrTheme() throws IOException {
    List<String> wrong = new ArrayList<>();
    Shots shots = Shots.asked();
    long begun = System.nanoTime();
    int looks = 0;
    for (int r = 0; r < ROOMS.size(); r++) {
      Room room = ROOMS.get(r);
      enter(room);
      for (int size = 0; size < SIZES.length; size++) {
        for (int theme = 0; theme < THEMES.size(); theme++) {
          if (!ALL && (size != (r + theme) % SIZES.length || theme == 1 && room.isLong())) {
            continue;
          }
          looks++;
          wrong.addAll(look(room, SIZES[size], THEMES.get(theme), shots));
        }
      }
    }
    System.out.printf(
        "%d rooms, looked at %d times in 3 sizes and 2 themes: %.1f s%n",
        ROOMS.size(), looks, (System.nanoTime() - begun) / 1e9);
    assertThat(wrong).isEmpty();
  }

  private List<String> look(Room room, int[] size, String theme, Shots shots) throws IOException {
    browser.size(size[0], size[1]);
    browser.script("document.documentElement.dataset.theme = arguments[0]", theme);
    String at = "%s %d %s".formatted(room.name(), size[0], theme);
    List<String> wrong = new ArrayList<>();
    Axe.violations(browser).forEach(v -> wrong.add(at + ": " + v));
    if (wide()) {
      wrong.add(at + ": wider than the window");
    }
    if (cut()) {
      wrong.add(at + ": the rooms have to be pushed to be seen");
    }
    withoutWords().forEach(b -> wrong.add(at + ": a sign without a word: " + b));
    if (size[0] < SIZES[0][0]) {
      ((List<?>) browser.script(SMALL_TARGETS, FINGER))
          .forEach(e -> wrong.add(at + ": too small for a finger: " + e));
    }
    shots.take(browser, room.name(), size[0], theme);
    return wrong;
  }

  /** Whatever is pressed in a room, and whatever comes of it, something has the keys afterwards. */
  @Test
  @Order(2)
  void theKeysAreNeverWithThePageItself() {
    List<String> lost = new ArrayList<>();
    long begun = System.nanoTime();
    int pressed = 0;
    for (Room room : ROOMS) {
      if (!PRESSED.contains(room.name())) {
        continue;
      }
      enter(room);
      List<?> found =
          (List<?>)
              browser.asyncScript(
                  PRESS.replace(
                      "MOST", String.valueOf(ALL || room.name().equals("road") ? 200 : 6)));
      pressed += ((Number) found.get(0)).intValue();
      found.stream().skip(1).forEach(what -> lost.add(room.name() + ": " + what));
    }
    System.out.printf("%d things pressed in %.1f s%n", pressed, (System.nanoTime() - begun) / 1e9);
    assertThat(lost).isEmpty();
  }

  /**
   * On the phone the first number begins on the first screen; meter and key of one bar, and all
   * else that is written in it, stand apart; what can be done with chosen bars is one key away.
   */
  @Test
  @Order(0)
  void theFormIsNearAndItsSignsStandApart() {
    Api api = new Api(service);
    String map = "/api/books/" + book + "/map";
    String bar = api.get(map).path("bars").path(20).path("id").asString();
    correct(api, Map.of("kind", "set-meter", "bar", bar, "beats", 12, "unit", 8));
    correct(api, Map.of("kind", "set-key", "bar", bar, "fifths", -3));
    for (int[] size : SIZES) {
      browser.size(size[0], size[1]);
      browser.go("/road.html?b=" + book);
      browser.see(".form-field");
      assertThat((List<?>) browser.script(WRITTEN_OVER)).as(size[0] + " wide").isEmpty();
      assertThat(
              browser.script(
                  "return document.querySelector('.number').getBoundingClientRect().top < innerHeight"))
          .as("the form on the first screen, " + size[0] + " wide")
          .isEqualTo(true);
    }
    browser.size(SIZES[0][0], SIZES[0][1]);
    browser.see(".form-bar[data-bar='" + bar + "']").sendKeys(Keys.ENTER);
    browser.press(Keys.TAB);
    assertThat(browser.script("return document.activeElement.matches('[data-kind]')"))
        .as("what is done with chosen bars comes next")
        .isEqualTo(true);
    browser.actions().keyDown(Keys.SHIFT).sendKeys(Keys.TAB, Keys.TAB).keyUp(Keys.SHIFT).perform();
    assertThat(browser.script("return document.activeElement.matches('.form-bar.chosen')"))
        .as("and the bars before it")
        .isEqualTo(true);
    for (int i = 0; i < 2; i++) {
      String path = "/api/books/" + book;
      api.post(path + "/undo", Map.of(), api.revision(path + "/map"));
    }
  }

  private void correct(Api api, Map<String, ?> correction) {
    String path = "/api/books/" + book;
    api.post(path + "/corrections", correction, api.revision(path + "/map"));
  }

  /** A sign alone has to be guessed: every button says in words what it does. */
  private List<?> withoutWords() {
    return (List<?>) browser.script(WITHOUT_WORDS);
  }

  /**
   * Minus and plus, the arrows beside the page's number, the panel's grip and the cross of a
   * message are known.
   */
  private static final String WITHOUT_WORDS =
      """
      const known = "#tool-page-before, #tool-page-after, .grip, .toast button, [aria-label$=': one less'], [aria-label$=': one more']";
      const says = (n) => [...n.childNodes].some((c) => (c.nodeType === 3 ? c.data.trim() !== "" : c.nodeType === 1 && getComputedStyle(c).display !== "none" && says(c)));
      return [...document.querySelectorAll("button, a.btn")].filter((b) => b.checkVisibility() && !b.matches(known) && !says(b)).map((b) => b.outerHTML.slice(0, 120));
      """;

  /** What is written in the form over something else, CSS pixels. */
  private static final String WRITTEN_OVER =
      """
      const found = [];
      for (const form of [...document.querySelectorAll(".form")].slice(0, 2)) {
        const all = [...form.querySelectorAll("text")].map((n) => ({ n, at: n.getBoundingClientRect() })).filter((t) => t.at.width > 0);
        for (const [i, a] of all.entries()) for (const b of all.slice(i + 1)) {
          const wide = Math.min(a.at.right, b.at.right) - Math.max(a.at.left, b.at.left);
          const high = Math.min(a.at.bottom, b.at.bottom) - Math.max(a.at.top, b.at.top);
          if (wide > 2 && high > 5) found.push(`${a.n.textContent} and ${b.n.textContent}: ${wide.toFixed(1)} by ${high.toFixed(1)}`);
        }
        if (all.length === 0) found.push("nothing is written");
      }
      return found;
      """;

  private void enter(Room room) {
    browser.size(1440, 900);
    browser.go(room.address().replace("BOOK", book).replace("EMPTY", empty));
    browser.see(room.seen());
    if (!room.press().isEmpty()) {
      browser.click(room.press());
    }
  }

  private boolean cut() {
    return Boolean.TRUE.equals(
        browser.script(
            "const r = document.querySelector('.rooms');"
                + " return r !== null && r.scrollWidth > r.clientWidth + 1"));
  }

  /** A page that has to be pushed sideways hides what stands at its edge. */
  private boolean wide() {
    return Boolean.TRUE.equals(
        browser.script("return document.documentElement.scrollWidth > innerWidth + 1"));
  }
}
