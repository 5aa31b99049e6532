package org.barmap.browser.desk;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.stream.StreamSupport;
import org.barmap.browser.Axe;
import org.barmap.browser.Browser;
import org.barmap.browser.ReadyBook;
import org.barmap.browser.Visit;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.Keys;

/** Several bars are corrected together: chosen with keys held, or by fingers alone. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class ManyBarsBrowserTest {

  private Visit visit;
  private Browser browser;
  private String book;

  @BeforeAll
  void open(@TempDir Path data) throws IOException {
    book = ReadyBook.into(data);
    visit = Visit.to(data, 1440, 900);
    browser = visit.browser();
  }

  @AfterAll
  void close() {
    visit.close();
  }

  private void openAt(String bar) {
    browser.go("/desk.html?b=" + book + "&p=2&bar=" + bar);
    browser.see(".bar-form[data-bar='" + bar + "']");
    browser.press("0");
  }

  private void pointHolding(Keys held, String bar) {
    browser
        .actions()
        .keyDown(held)
        .click(browser.see("[data-bar='" + bar + "'] .bar-field"))
        .keyUp(held)
        .perform();
  }

  private List<String> content(String... ids) {
    return StreamSupport.stream(
            visit.api().get("/api/books/" + book + "/map").path("bars").spliterator(), false)
        .filter(b -> Arrays.asList(ids).contains(b.path("id").asString()))
        .map(b -> b.path("content").asString())
        .toList();
  }

  private void allAre(String wanted, String... ids) {
    browser.waiting(20).until(d -> content(ids).stream().allMatch(wanted::equals));
  }

  @Test
  void shiftTakesAllUpToThereAndControlOneMore() {
    openAt("b60");
    pointHolding(Keys.SHIFT, "b63");
    browser.count(".bar.selected", 4, 10);
    browser.see(".many-bars", "4 bars");
    pointHolding(Keys.CONTROL, "b65");
    browser.count(".bar.selected", 5, 10);
    pointHolding(Keys.CONTROL, "b62");
    browser.count(".bar.selected", 4, 10);
    assertThat(content("b60", "b61", "b62", "b63", "b65")).containsOnly("music");
    browser.click("[data-value=bar-repeat]");
    allAre("bar-repeat", "b60", "b61", "b63", "b65");
    assertThat(content("b62", "b64")).containsOnly("music");
    for (int i = 0; i < 4; i++) {
      browser.undo();
    }
    allAre("music", "b60", "b61", "b63", "b65");
    assertThat(browser.complaints()).isEmpty();
  }

  /** A phone has no keys to hold. */
  @Test
  void aFingerChoosesMoreBars() {
    browser.size(390, 844);
    openAt("b60");
    browser.click("#more-bars");
    assertThat(browser.attribute("#more-bars", "aria-pressed")).isEqualTo("true");
    // the bar beside it lies within a finger's reach of the handle
    browser.point("[data-bar='b61'] .bar-field");
    browser.see(".many-bars", "2 bars");
    browser.point("[data-bar='b63'] .bar-field");
    browser.see(".many-bars", "3 bars");
    browser.count(".bar.selected", 3, 10);
    assertThat(Axe.violations(browser)).isEmpty();
    browser.click("[data-value=rest]");
    allAre("rest", "b60", "b61", "b63");
    browser.count(".bar.selected", 1, 10);
    assertThat(browser.attribute("#more-bars", "aria-pressed")).isEqualTo("false");
    for (int i = 0; i < 3; i++) {
      browser.undo();
    }
    allAre("music", "b60", "b61", "b63");
    browser.size(1440, 900);
  }
}
