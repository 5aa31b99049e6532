package org.barmap.browser.room;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.barmap.browser.Api;
import org.barmap.browser.Browser;
import org.barmap.browser.ReadyBook;
import org.barmap.browser.Visit;
import org.barmap.map.BarMap;
import org.barmap.map.MusicalNumber;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.Keys;
import tools.jackson.databind.JsonNode;

/** Music before the first number that has a name is played, so every room has it. */
class UnnamedBarsBrowserTest {

  @Test
  void barsBeforeTheFirstNamedNumberStandInEveryRoom(@TempDir Path data) throws IOException {
    String book = ReadyBook.into(data, UnnamedBarsBrowserTest::namedFromTheSecondOn);
    try (Visit visit = Visit.to(data, 1280, 900)) {
      Browser browser = visit.browser();
      browser.go("/road.html?b=" + book);
      browser.see("[data-number='before 2'] h2", "Before No. 2");
      assertThat(browser.all("[data-number='before 2'] .form-bar")).hasSize(81);
      browser.see(".form-bar[data-bar='b1']").sendKeys(Keys.ENTER);
      browser.see(".form-bar[data-bar='b3']").sendKeys(Keys.ENTER);
      browser.see(".choose-text", "Before No. 2: bars 1 to 3");
      browser.click("[data-kind=cut]");
      browser.see("dialog h2", "Is this right?");
      browser.click("dialog [type=submit]");
      browser.see(".change", "cut 1 to 3");
      browser.see(".change-number", "Before No. 2");
      browser.see(".form-bar.cut[data-bar='b2']");
      browser.see(".strip-turn[data-turn^='1>2']");
      browser.go("/turns.html?b=" + book);
      browser.see(".turn[data-turn^='1>2']", "before No. 2");
      browser.go("/stand.html?b=" + book);
      browser.click("#stand-begin");
      browser.see(".stand-number", "Before No. 2");
      JsonNode numbers = plan(visit.api(), book).path("numbers");
      assertThat(numbers.path(0).path("label").asString()).isEqualTo("before 2");
      assertThat(numbers.path(0).path("cut").path("bars").asInt()).isEqualTo(3);
      assertThat(browser.complaints()).isEmpty();
    }
  }

  private static JsonNode plan(Api api, String book) {
    return api.get("/api/books/" + book + "/plan");
  }

  private static BarMap namedFromTheSecondOn(BarMap map) {
    List<MusicalNumber> named = map.numbers().stream().filter(n -> !n.label().equals("1")).toList();
    return new BarMap(map.format(), map.book(), map.pages(), named, map.bars(), map.findings());
  }
}
