package org.barmap.browser;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.barmap.library.Pages;
import org.barmap.library.sqlite.SqliteLibrary;
import org.barmap.map.Bar;
import org.barmap.map.BarBuilder;
import org.barmap.map.BarMap;
import org.barmap.map.Barline;
import org.barmap.map.Book;
import org.barmap.map.Content;
import org.barmap.map.Evidence;
import org.barmap.map.Meter;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Outline;
import org.barmap.map.Page;
import org.barmap.map.StaffSystem;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.Keys;

/**
 * A made book of 144 pages that keeps what was read of it: what a click waits for until the desk is
 * redrawn. The figures are printed, not asserted: other machines, other figures.
 */
class BigBookBrowserTest extends VisitingTest {

  private static final int PAGES = 144;
  private static final int LINES = 10;
  private static final int BARS = 6;
  private static final int LINES_A_NUMBER = 17;
  private static final int CLICKS = 9;

  private String book = "";
  private final List<Bar> bars = new ArrayList<>();

  @BeforeAll
  void open(@TempDir Path data) throws IOException {
    BarMap map = made();
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

  /** Lines begin with their printed number, one bar in five is a rest with its numeral. */
  private BarMap made() {
    Random random = new Random(7);
    List<Page> pages = new ArrayList<>();
    List<MusicalNumber> numbers = new ArrayList<>();
    int number = 1;
    for (int page = 1; page <= PAGES; page++) {
      List<StaffSystem> lines = new ArrayList<>();
      for (int line = 1; line <= LINES; line++) {
        int at = (page - 1) * LINES + line - 1;
        double top = 250.0 * line;
        boolean starts = at % LINES_A_NUMBER == 0;
        number = starts ? 1 : number;
        Optional<Integer> printed = starts ? Optional.empty() : Optional.of(number);
        lines.add(
            new StaffSystem(
                line, Outline.box(200, top, 2300, top + 84), 21, printed, 1, List.of()));
        if (starts) {
          numbers.add(begun(numbers.size() + 1, "b" + (bars.size() + 1)));
        }
        for (int i = 0; i < BARS; i++) {
          int count = random.nextInt(5) == 0 ? 2 + random.nextInt(14) : 1;
          double left = 200 + i * 350.0;
          BarBuilder bar =
              Bar.builder(
                      "b" + (bars.size() + 1),
                      page,
                      line,
                      Outline.box(left, top, left + 350, top + 84))
                  .number(number)
                  .meter(new Meter(4, 4, starts && i == 0))
                  .evidence(
                      Optional.of(
                          new Evidence(
                              count > 1 ? said(count) : List.of(),
                              i == 0 && !starts ? said(number) : List.of(),
                              0.99)));
          if (count > 1) {
            bar.content(Content.MULTI_REST).count(count);
          }
          boolean last = i == BARS - 1 && (at + 1) % LINES_A_NUMBER == 0;
          bars.add(bar.endBarline(last ? Barline.FINAL : Barline.SINGLE).build());
          number += count;
        }
        MusicalNumber now = numbers.get(numbers.size() - 1);
        numbers.set(
            numbers.size() - 1,
            new MusicalNumber(
                now.label(), "", now.firstBar(), Optional.of("b" + bars.size()), false));
      }
      pages.add(new Page(page, "page-" + page + ".png", 2480, 3508, lines));
    }
    return BarMap.of(new Book("Made", "Bass"), pages, numbers, bars);
  }

  private static MusicalNumber begun(int label, String bar) {
    return new MusicalNumber(
        Integer.toString(label), "", Optional.of(bar), Optional.of(bar), false);
  }

  private static List<Evidence.Alternative> said(int figure) {
    return List.of(new Evidence.Alternative(Integer.toString(figure), 0.97));
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
        PAGES,
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
