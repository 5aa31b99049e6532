package org.barmap.browser;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.barmap.browser.planted.MadeBook;
import org.barmap.browser.planted.Person;
import org.barmap.browser.planted.Planted;
import org.barmap.browser.planted.Planted.Kind;
import org.barmap.browser.planted.PlantedErrors;
import org.barmap.library.Pages;
import org.barmap.library.sqlite.SqliteLibrary;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Book;
import org.barmap.map.Page;
import org.barmap.map.Point;
import org.barmap.map.json.BarMapJson;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.Keys;
import tools.jackson.databind.JsonNode;

/**
 * The desk in figures: a made book of 144 pages that keeps what was read of it, what a click waits
 * for until the desk is redrawn; and the demo book with twenty errors in it, taken to checked by a
 * scripted person. What machines take is printed, not asserted: other machines, other figures.
 */
class DeskFiguresBrowserTest extends VisitingTest {

  private static final int CLICKS = 9;

  private String book = "";
  private List<Bar> bars = List.of();
  private String demo = "";
  private BarMap truth = BarMap.of(new Book("", ""), List.of(), List.of(), List.of());

  @BeforeAll
  void open(@TempDir Path data) throws IOException {
    BarMap map = MadeBook.make();
    bars = map.bars();
    truth = BarMapJson.read(DemoBook.page("saltmarsh.barmap.json"));
    demo = ReadyBook.into(data, PlantedErrors::in);
    try (SqliteLibrary library = SqliteLibrary.open(data, Clock.systemUTC())) {
      book = library.books().add("Made", "Bass").id();
      List<Pages.NewPage> pages = new ArrayList<>();
      map.pages()
          .forEach(p -> pages.add(new Pages.NewPage(p.source(), "", 2480, 3508, Optional.empty())));
      library.pages().add(book, pages, Optional.empty());
      library.readings().lay(book, library.readings().material(book), map);
    }
    visit(data, 1440, 900);
  }

  @Test
  void aCorrectionIsDrawnAndOnlyItsPageIsSent() {
    long begun = System.nanoTime();
    browser.go("/desk.html?b=" + book + "&p=70");
    browser.see(".bar-field");
    double view = (System.nanoTime() - begun) / 1e6;
    List<Bar> rests = bars.stream().filter(b -> b.page() == 70 && b.count() > 1).toList();
    double[] clicks = new double[CLICKS];
    for (int i = 0; i < CLICKS; i++) {
      Bar rest = rests.get(i % rests.size());
      browser.point("[data-bar='" + rest.id() + "'] .bar-field");
      browser.see(".bar-form[data-bar='" + rest.id() + "']");
      String count = Integer.toString(20 + i);
      browser.script(TIMED, rest.id(), count);
      browser.press(count, Keys.ENTER);
      browser.see("[data-bar='" + rest.id() + "'] .pill-count", count);
      browser.waiting(20).until(d -> browser.script("return window.took") instanceof Number);
      clicks[i] = ((Number) browser.script("return window.took")).doubleValue();
    }
    Arrays.sort(clicks);
    Object bytes =
        browser.script(
            "return Math.max(...performance.getEntriesByType('resource')"
                + ".filter(e => e.name.includes('/corrections')).map(e => e.encodedBodySize))");
    System.out.printf(
        "book of %d pages: first view %.0f ms; from the key to the redrawn desk %.0f ms (median of"
            + " %d, best %.0f, worst %.0f); answers of at most %s bytes; %.1f programs wanted to run"
            + " on %d cores%n",
        MadeBook.PAGES,
        view,
        clicks[CLICKS / 2],
        CLICKS,
        clicks[0],
        clicks[CLICKS - 1],
        bytes,
        ManagementFactory.getOperatingSystemMXBean().getSystemLoadAverage(),
        Runtime.getRuntime().availableProcessors());
    assertThat(((Number) bytes).intValue())
        .as("the whole map has some millions")
        .isLessThan(500_000);
    assertThat((List<?>) browser.script(UNNAMED))
        .as("modules found one after the other, as the head doesn't name them")
        .isEmpty();
    assertThat(browser.complaints())
        .as("its pages have no pictures")
        .allMatch(c -> c.contains("404") || c.contains("image"));
  }

  /** More than this for one error, and a person grows tired of correcting. */
  private static final int MOST_ACTIONS = 3;

  /** A page without errors is looked over and checked in this, seconds. */
  private static final double CLEAN_PAGE = 6;

  /**
   * From the first page to the last: each doubt is looked at, each error that is really there is
   * mended, the page is checked. Then everything is as it is printed.
   */
  @Test
  void aPersonTakesABookWithTwentyErrorsToChecked() {
    browser.size(1920, 1200); // a page is seen whole
    browser.go("/desk.html?b=" + demo + "&p=1");
    browser.see(".bar-field");
    browser.press("0");
    Person person = new Person();
    assertThat(PlantedErrors.differences(now(), truth)).hasSizeGreaterThanOrEqualTo(20);
    int asked = 0;
    for (Page page : truth.pages()) {
      browser.waiting(20).until(d -> browser.path().contains("p=" + page.index()));
      int doubts = doubtsOn(page.index());
      List<Planted> here =
          PlantedErrors.ALL.stream().filter(e -> e.page() == page.index()).toList();
      asked += doubts;
      for (int i = 0; i < Math.max(1, doubts); i++) {
        person.looks(); // a page without doubts is looked over as well
      }
      double looked = person.seconds();
      person.notes("page %d: %d doubts".formatted(page.index(), doubts), 0, 0);
      for (Planted error : here) {
        mend(person, error);
      }
      assertThat(doubtsOn(page.index())).as("doubts left on page " + page.index()).isZero();
      long revision = revision();
      double begun = System.nanoTime();
      browser.press("v");
      person.presses();
      browser.see("#tool-verify[aria-pressed=true]");
      settled(revision);
      browser.press(Keys.PAGE_DOWN);
      person.presses();
      if (here.isEmpty()) {
        assertThat(looked + person.seconds()).as("a clean page").isLessThan(CLEAN_PAGE);
      }
      String kind = here.isEmpty() ? " (clean)" : "";
      person.notes(
          "page " + page.index() + kind + ": checked", bytes(), (System.nanoTime() - begun) / 1e9);
    }
    System.out.printf(
        "a person with the demo book and %d errors, of which it asks %d things (bytes as the browser"
            + " counts them):%n%s",
        PlantedErrors.ALL.size(), asked, person.log());
    assertThat(PlantedErrors.differences(now(), truth)).isEmpty();
    assertThat(api.get("/api/books/" + demo).path("verifiedPages").asInt())
        .isEqualTo(truth.pages().size());
    assertThat(browser.complaints()).isEmpty();
    browser.size(1440, 900);
  }

  private void mend(Person person, Planted error) {
    Bar printed = truth.bar(error.bar()).orElseThrow();
    long revision = revision();
    double begun = System.nanoTime();
    person.looks();
    if (error.kind() == Kind.MISSING_BARLINE) {
      browser.twice(screen(printed.outline().rightMiddle()));
      person.clicks(2);
    } else {
      browser.tap(screen(inside(printed)));
      person.clicks(1);
      browser.see(".bar-form");
      says(person, error.kind(), printed);
    }
    settled(revision);
    assertThat(person.actions()).as(error.toString()).isLessThanOrEqualTo(MOST_ACTIONS);
    String what = error.kind().name().toLowerCase(Locale.ROOT).replace('_', ' ');
    person.notes(
        "page %d, bar %d: %s".formatted(error.page(), printed.number(), what),
        bytes(),
        (System.nanoTime() - begun) / 1e9);
  }

  /** What is said of the chosen bar so that it is as it is printed. */
  private void says(Person person, Kind kind, Bar printed) {
    switch (kind) {
      case EXTRA_BARLINE -> key(person, Keys.DELETE);
      case REST_COUNT -> typed(person, Integer.toString(printed.count()));
      case LOST_REPEAT_END -> key(person, ":");
      case LOST_REPEAT_START -> key(person, ";");
      case REST_AS_MUSIC -> key(person, "c");
      case MUSIC_AS_REST -> key(person, "a");
      case METER -> {
        key(person, "t");
        typed(person, printed.meter().map(m -> m.beats() + "/" + m.unit()).orElseThrow());
      }
      case NO_MARK, OTHER_MARK -> {
        key(person, "m");
        typed(person, printed.rehearsal().orElseThrow().text());
      }
      case OTHER_NUMBER -> {
        key(person, "s");
        typed(
            person,
            truth.numbers().stream()
                .filter(n -> n.firstBar().filter(printed.id()::equals).isPresent())
                .findFirst()
                .orElseThrow()
                .label());
      }
      default -> throw new IllegalArgumentException(kind.toString());
    }
  }

  private void key(Person person, CharSequence key) {
    browser.press(key);
    person.presses();
  }

  private void typed(Person person, String text) {
    browser.press(text, Keys.ENTER);
    person.types(text);
  }

  /** Left of the middle: where a line too many was seen, the bar left of it. */
  private static Point inside(Bar bar) {
    Point left = bar.outline().leftMiddle();
    Point right = bar.outline().rightMiddle();
    return new Point(
        left.x() + 0.3 * (right.x() - left.x()), left.y() + 0.3 * (right.y() - left.y()));
  }

  private List<?> screen(Point p) {
    return browser.screen(p.x(), p.y());
  }

  /** Waits until the book has gone on and the desk shows it. */
  private void settled(long revision) {
    browser.waiting(20).until(d -> revision() > revision && browser.all(".desk.busy").isEmpty());
  }

  private long revision() {
    return Long.parseLong(api.revision("/api/books/" + demo + "/map").replace("\"", ""));
  }

  private int doubtsOn(int page) {
    int doubts = 0;
    for (JsonNode doubt : api.get("/api/books/" + demo + "/doubts").path("doubts")) {
      boolean asked = !doubt.path("severity").asString("").equals("info");
      doubts += asked && doubt.path("page").asInt(0) == page ? 1 : 0;
    }
    return doubts;
  }

  private BarMap now() {
    return BarMapJson.mapper()
        .treeToValue(api.get("/api/books/" + demo + "/export/map"), BarMap.class);
  }

  /** What came over the net since it was asked last, headers and all. */
  private long bytes() {
    Object sum =
        browser.script(
            "const all = performance.getEntriesByType('resource').filter(e => e.name.includes('/api/'));"
                + "performance.clearResourceTimings();"
                + "return all.reduce((n, e) => n + e.transferSize, 0)");
    return ((Number) sum).longValue();
  }

  private static final String UNNAMED =
      """
      const named = new Set([...document.querySelectorAll("link[rel=modulepreload]")].map((l) => l.href));
      return performance.getEntriesByType("resource").map((e) => e.name)
        .filter((name) => /\\/js\\/[a-z]+\\//.test(name) && !name.endsWith("/main.js") && !named.has(name));
      """;

  /** Takes the time from Enter to the frame after the bar shows its new count. */
  private static final String TIMED =
      """
      const [id, count] = arguments;
      window.took = undefined;
      let from = 0;
      addEventListener("keydown", (e) => { if (e.key === "Enter") from = performance.now(); }, { capture: true, once: false });
      const look = () => {
        const shown = document.querySelector(`[data-bar="${id}"] .pill-count`)?.textContent;
        if (from && shown === count) requestAnimationFrame(() => { window.took = performance.now() - from; });
        else requestAnimationFrame(look);
      };
      look();
      """;
}
