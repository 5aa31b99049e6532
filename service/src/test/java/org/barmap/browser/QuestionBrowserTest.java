package org.barmap.browser;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Locale;
import java.util.Map;
import org.junit.jupiter.api.MethodOrderer;
import org.junit.jupiter.api.Order;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestMethodOrder;
import org.openqa.selenium.Keys;
import org.openqa.selenium.WebElement;
import tools.jackson.databind.JsonNode;

/** What the plan asks is shown with its ways; one tap takes one, and it can be taken back. */
@TestMethodOrder(MethodOrderer.OrderAnnotation.class)
class QuestionBrowserTest extends VisitingTest.OfReadyBook {

  @Test
  @Order(1)
  void addedBarsAreSaidInTheForm() {
    browser.go("/road.html?b=" + book);
    browser.see(".form-bar[data-bar='" + entryAt("6", 10) + "']").sendKeys(Keys.ENTER);
    browser.click("[data-kind=insert]");
    browser.type("dialog [name=bars]", "2");
    browser.choose("dialog [name=side]", "before");
    browser.type("dialog [name=meter]", "C|");
    browser.type("dialog [name=label]", "9A");
    browser.click("dialog [type=submit]");
    browser.see("dialog .reading.now", "the plan goes by this");
    browser.click("dialog [type=submit]");
    browser.see(".change", "2 bars of 2/2 inserted before 10, called 9A");
    JsonNode change = changes().path(0);
    assertThat(change.path("before").asString("")).isEqualTo("10");
    assertThat(change.path("meter").asString("")).isEqualTo("2/2");
    assertThat(change.has("after")).isFalse();
    assertThat(change.has("side")).isFalse();
  }

  @Test
  @Order(2)
  void aWayIsTakenByOneTapAndTakenBack() {
    browser.go("/road.html?b=" + book);
    WebElement now = browser.see("[data-check=insert-content] .reading.now", "Music");
    assertThat(now.getText()).contains("the plan goes by this");
    browser.click("[data-check=insert-content] .reading:not(.now) button");
    browser.see(".toast", "Taken as: rest");
    browser.waiting(20).until(d -> changes().path(0).path("content").asString("").equals("rest"));
    browser.count("[data-check=insert-content] .reading", 0, 20);
    browser.click(".toast button");
    browser.see("[data-check=insert-content] .reading.now", "Music");
    assertThat(changes().path(0).has("content")).isFalse();
    assertThat(browser.complaints()).isEmpty();
  }

  @Test
  @Order(3)
  void aWayThatTakesMoreThanOneChangeIsOneTapToo() {
    String path = "/api/books/" + book + "/changes";
    api.post(path + "/undo", Map.of(), api.revision(path));
    int from = repeat();
    String lead = String.valueOf(from - 1);
    String first = String.valueOf(from);
    api.post(
        path,
        Map.of("number", number, "kind", "cut", "first", lead, "last", first),
        api.revision(path));
    browser.go("/road.html?b=" + book);
    browser.see("[data-check=cut-repeat] .reading.now .reading-bars");
    int before = changes().size();
    browser.click("[data-check=cut-repeat] .reading:not(.now) button");
    browser.waiting(20).until(d -> changes().size() > before);
    browser.count("[data-check=cut-repeat] .reading", 0, 20);
    browser.click(".toast button");
    browser.waiting(20).until(d -> changes().size() == before);
    assertThat(browser.complaints()).isEmpty();
  }

  @Test
  @Order(4)
  void whatThePrintLeavesOpenIsOneTapInTheRoomOfTheTurnsToo() {
    int before = changes().size();
    browser.go("/turns.html?b=" + book);
    browser.click("[data-check=which-passes] .reading:not(.now) button");
    browser.count("[data-check=which-passes]", 0, 20);
    browser.waiting(20).until(d -> changes().size() > before);
    browser.click(".toast button");
    browser.see("[data-check=which-passes]");
    assertThat(changes().size()).isEqualTo(before);
  }

  @Test
  @Order(5)
  void whatIsInHandAtFirstLeadsToItsField() {
    browser.go("/road.html?b=" + book);
    browser.click("#asked [data-check=in-hand] .reading-place");
    browser.see("dialog [name=inHand]");
    browser
        .waiting(20)
        .until(
            d ->
                String.valueOf(d.switchTo().activeElement().getAttribute("name")).equals("inHand"));
    browser.type("dialog [name=inHand]", "double bass");
    browser.click("dialog [type=submit]");
    browser.count("[data-check=in-hand]", 0, 20);
    browser.go("/road.html?b=" + book);
    browser.click("#asked [data-check=first-page] .reading-place");
    browser.see("dialog [name=firstPage]");
    browser
        .waiting(20)
        .until(
            d ->
                String.valueOf(d.switchTo().activeElement().getAttribute("name"))
                    .equals("firstPage"));
    browser.click("dialog [type=button]");
    assertThat(browser.complaints()).isEmpty();
  }

  @Test
  @Order(6)
  void theSameSaidTwiceIsOneTap() {
    String path = "/api/books/" + book + "/changes";
    Map<String, String> cut = Map.of("number", "1", "kind", "cut", "first", "17", "last", "18");
    api.post(path, cut, api.revision(path));
    api.post(path, cut, api.revision(path));
    int before = changes().size();
    browser.go("/road.html?b=" + book);
    browser.click("#asked [data-check=said-twice] .reading button");
    browser.count("[data-check=said-twice]", 0, 20);
    browser.waiting(20).until(d -> changes().size() == before - 1);
    browser.click(".toast button");
    browser.see("[data-check=said-twice]");
    assertThat(changes().size()).isEqualTo(before);
    assertThat(browser.complaints()).isEmpty();
  }

  private String number = "";

  /** Returns the first bar of a repeat, no vamp, without endings, that a repeat sign begins. */
  private int repeat() {
    JsonNode map = api.get("/api/books/" + book + "/map");
    JsonNode bars = map.path("bars");
    for (int i = 1; i < bars.size(); i++) {
      for (JsonNode n : map.path("numbers")) {
        number =
            n.path("firstBar").equals(bars.path(i).path("id"))
                ? n.path("label").asString()
                : number;
      }
      boolean starts =
          bars.path(i).path("startBarline").asString("").startsWith("repeat-start")
              || bars.path(i - 1).path("endBarline").asString("").equals("repeat-start");
      for (int k = i + 1; starts && k < i + 12 && k < bars.size(); k++) {
        if (bars.path(k).has("ending") || open(bars.path(i)) || open(bars.path(k))) {
          break; // of a vamp it is asked whether it goes round what is left
        }
        boolean inside = bars.path(i).path("number").asInt() > 1;
        if (inside && bars.path(k).path("endBarline").asString("").equals("repeat-end")) {
          return bars.path(i).path("number").asInt();
        }
      }
    }
    throw new AssertionError("the book has no such repeat");
  }

  private static boolean open(JsonNode bar) {
    return bar.path("words").toString().toLowerCase(Locale.ROOT).matches(".*(?:vamp|safety).*");
  }

  private JsonNode changes() {
    return api.get("/api/books/" + book + "/changes").path("changes");
  }

  private String entryAt(String label, int bar) {
    JsonNode map = api.get("/api/books/" + book + "/map");
    boolean inside = false;
    for (JsonNode n : map.path("numbers")) {
      for (JsonNode b : map.path("bars")) {
        inside |=
            b.path("id").equals(n.path("firstBar")) && n.path("label").asString().equals(label);
        int from = b.path("number").asInt();
        if (inside && from <= bar && bar < from + b.path("count").asInt()) {
          return b.path("id").asString();
        }
      }
    }
    throw new AssertionError("No. " + label + " has no bar " + bar);
  }
}
