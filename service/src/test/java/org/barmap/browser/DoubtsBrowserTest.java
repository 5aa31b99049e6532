package org.barmap.browser;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Finding;
import org.barmap.map.Severity;
import org.barmap.map.Stage;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.MethodOrderer;
import org.junit.jupiter.api.Order;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestMethodOrder;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.By;
import org.openqa.selenium.WebElement;
import tools.jackson.databind.JsonNode;

/** Doubts are answered knowing what follows, and none is passed over. */
@TestMethodOrder(MethodOrderer.OrderAnnotation.class)
class DoubtsBrowserTest extends VisitingTest {

  private String book = "";
  private String rest = "";

  @BeforeAll
  void open(@TempDir Path data) throws IOException {
    book = ReadyBook.into(data, this::doubted);
    visit(data, 1440, 900);
  }

  /** Two doubts on page 1, one on page 2; the first rest's count is asked. */
  private BarMap doubted(BarMap map) {
    List<Bar> first = map.bars().stream().filter(b -> b.page() == 1).toList();
    Bar counted = first.stream().filter(b -> b.count() > 1).findFirst().orElseThrow();
    Bar other = map.bars().stream().filter(b -> b.page() == 2).findFirst().orElseThrow();
    rest = counted.id();
    int less = counted.count() - 1;
    return map.withFindings(
        List.of(
            doubt(
                counted,
                "count-unsure",
                9,
                List.of(count(counted, counted.count()), count(counted, less))),
            doubt(first.get(0), "barline-unsure", 2, List.of()),
            doubt(other, "barline-unsure", 1, List.of())));
  }

  private static Finding.Answer count(Bar bar, int count) {
    return new Finding.Answer(
        "This rest is " + count,
        Map.of("kind", "set-count", "bar", bar.id(), "count", Integer.toString(count)));
  }

  private static Finding doubt(Bar bar, String code, double weight, List<Finding.Answer> answers) {
    return Finding.ofBar(
        Severity.DOUBT, Stage.RECKON, bar, code, "Asked: " + code, answers, weight);
  }

  /** Where no place is asked for, the desk opens at what would shift most, and keys do the rest. */
  @Test
  @Order(0)
  void doubtsComeFirstAndAreAnsweredByKeys() {
    browser.go("/desk.html?b=" + book);
    browser.see(".doubt[aria-current][data-code=count-unsure]");
    browser.see(".bar.selected[data-bar='" + rest + "']");
    browser.waiting(20).until(d -> "answer-1".equals(focused()));
    Object high =
        browser.script(
            "return document.querySelector('.bar.selected .bar-field').getBoundingClientRect().height");
    assertThat(((Number) high).doubleValue()).as("pixels of a staff to judge").isGreaterThan(60);
    int before = bar(rest).path("count").asInt();
    browser.press("1");
    browser.see(".doubt[aria-current][data-code=barline-unsure]");
    browser.waiting(20).until(d -> "answer-1".equals(focused()));
    browser.press("1");
    browser.waiting(20).until(d -> browser.all("[data-code=barline-unsure]").size() == 1);
    browser.waiting(20).until(d -> browser.path().contains("p=2"));
    browser.undo();
    browser.undo();
    browser.count(".doubt", 3, 20);
    assertThat(bar(rest).path("count").asInt()).isEqualTo(before);
    assertThat(browser.complaints()).isEmpty();
  }

  private String focused() {
    return String.valueOf(browser.script("return document.activeElement?.id ?? ''"));
  }

  /**
   * One key says the last correction again; marked bars are corrected together; G goes to a page.
   */
  @Test
  @Order(0)
  void aFixIsRepeatedOnOtherBarsAndPagesAreJumpedTo() {
    List<JsonNode> music = new java.util.ArrayList<>();
    for (JsonNode bar : map().path("bars")) {
      if (bar.path("page").asInt() == 2 && bar.path("content").asString().equals("music")) {
        music.add(bar);
      }
    }
    List<String> ids = music.stream().map(b -> b.path("id").asString()).limit(4).toList();
    browser.go("/desk.html?b=" + book + "&p=2&bar=" + ids.get(0));
    browser.see(".bar-form[data-bar='" + ids.get(0) + "']");
    browser.press("c");
    browser.waiting(20).until(d -> content(ids.get(0)).equals("rest"));
    browser.point("[data-bar='" + ids.get(1) + "'] .bar-field");
    browser.see(".bar-form[data-bar='" + ids.get(1) + "']");
    browser.press("r");
    browser.waiting(20).until(d -> content(ids.get(1)).equals("rest"));
    browser.point("[data-bar='" + ids.get(2) + "'] .bar-field");
    browser.press("x");
    browser.point("[data-bar='" + ids.get(3) + "'] .bar-field");
    browser.see(".bar-form[data-bar='" + ids.get(3) + "']");
    browser.count(".bar.selected", 2, 20);
    browser.press("r");
    browser.waiting(20).until(d -> content(ids.get(2)).equals("rest"));
    assertThat(content(ids.get(3))).isEqualTo("rest");
    browser.press("d"); // from wherever one is, the first answer is one key away
    browser.waiting(20).until(d -> "answer-1".equals(focused()));
    browser.press("g");
    browser.press("3", org.openqa.selenium.Keys.ENTER);
    browser.waiting(20).until(d -> browser.path().contains("p=3"));
    for (int i = 0; i < 4; i++) {
      browser.undo();
    }
    browser.waiting(20).until(d -> content(ids.get(0)).equals("music"));
    assertThat(browser.complaints()).isEmpty();
  }

  private String content(String id) {
    return bar(id).path("content").asString();
  }

  @Test
  @Order(1)
  void anAnswerSaysWhatItWouldChangeAndChangesThat() {
    browser.go("/desk.html?b=" + book + "&p=1");
    browser.see(
        ".doubt[data-code=count-unsure] .answer:nth-child(1) .follows", "no number changes");
    String said =
        browser
            .see(".doubt[data-code=count-unsure] .answer:nth-child(2) .follows", "renumbered")
            .getText();
    Map<String, Integer> before = numbers();
    browser.click(".doubt[data-code=count-unsure] .answer:nth-child(2) button");
    browser.count(".doubt[data-code=count-unsure]", 0, 20);
    Map<String, Integer> after = numbers();
    int changed = 0;
    for (JsonNode bar : map().path("bars")) {
      String id = bar.path("id").asString();
      changed += Objects.equals(before.get(id), after.get(id)) ? 0 : bar.path("count").asInt(1);
    }
    assertThat(changed).isPositive();
    assertThat(said).contains(changed == 1 ? "1 bar renumbered" : changed + " bars renumbered");
    browser.undo();
    browser.count(".doubt[data-code=count-unsure]", 1, 20);
    assertThat(browser.complaints()).isEmpty();
  }

  @Test
  @Order(2)
  void whenNoneOfTheAnswersIsRightTheRightOneIsTyped() {
    browser.go("/desk.html?b=" + book + "&p=1");
    browser.type(".doubt[data-code=count-unsure] .other-field", "23");
    browser.see(".doubt[data-code=count-unsure] .other .follows", "renumbered");
    WebElement take =
        browser
            .see(".doubt[data-code=count-unsure] .other")
            .findElements(By.tagName("button"))
            .get(0);
    take.click();
    browser.count(".doubt[data-code=count-unsure]", 0, 20);
    assertThat(bar(rest).path("count").asInt()).isEqualTo(23);
    browser.undo();
    browser.count(".doubt[data-code=count-unsure]", 1, 20);
    assertThat(browser.all(".doubt")).allMatch(d -> d.getText().contains("None of these"));
  }

  @Test
  @Order(3)
  void twoClicksOnAnAnswerAreOne() {
    browser.go("/desk.html?b=" + book + "&p=2");
    browser.see(".doubt[aria-current], .doubt");
    int before = browser.all(".doubt").size();
    browser.script(
        "const b = document.querySelector('.doubt .answer button'); b.click(); b.click();");
    browser.count(".doubt", before - 1, 20);
    assertThat(browser.all(".toast")).isEmpty();
    browser.undo();
    browser.count(".doubt", before, 20);
  }

  @Test
  @Order(4)
  void checkingAPageAsksForItsOpenDoubts() {
    browser.go("/desk.html?b=" + book + "&p=1");
    browser.click("#tool-verify");
    browser.see("dialog", "2 doubts still open");
    browser.click("dialog .dialog-foot button:not([type=submit])");
    browser.see(".doubt[aria-current]", "count-unsure");
    assertThat(state(1)).isNotEqualTo("verified");
    browser.click("#tool-verify");
    browser.click("dialog [type=submit]");
    browser.see("#tool-verify[aria-pressed=true]");
    assertThat(state(1)).isEqualTo("verified");
    browser.count(".doubt", 1, 20);
    assertThat(browser.complaints()).isEmpty();
  }

  /**
   * What a person's own edits contradict is asked: print, numbers, order, a page that was checked.
   */
  @Test
  @Order(5)
  void whatOnesOwnEditsContradictIsAsked() {
    browser.go("/desk.html?b=" + book + "&p=1");
    browser.see(".doubt");
    correct(Map.of("kind", "remove-system", "page", 1, "system", 3));
    browser.see(".doubt[data-code=print-differs]", "19 is printed, but it counts as 14");
    back();
    browser.count(".doubt[data-code=print-differs]", 0, 20);
    String bar = map().path("bars").path(6).path("id").asString();
    correct(Map.of("kind", "set-number", "bar", bar, "number", 40));
    browser.see(".doubt-error[data-code=numbers-jump]", "12 to 39 are nowhere");
    browser.see(".doubt-error", "Page 1 was checked, and this speaks against it");
    back();
    browser.count(".doubt-error", 0, 20);
    String first = "";
    for (JsonNode number : map().path("numbers")) {
      first =
          number.path("label").asString().equals("5") ? number.path("firstBar").asString() : first;
    }
    correct(Map.of("kind", "start-number", "bar", first, "label", "15", "title", "Eels"));
    browser.see(".doubt[data-code=order-gap]", "No. 5 is nowhere");
    browser.see(".doubt[data-code=order-gap] .answer", "No. 5 is tacet");
    back();
    browser.count(".doubt[data-code=order-gap]", 0, 20);
  }

  private void correct(Map<String, ?> correction) {
    String path = "/api/books/" + book;
    api.post(path + "/corrections", correction, api.revision(path + "/map"));
  }

  private void back() {
    String path = "/api/books/" + book;
    api.post(path + "/undo", Map.of(), api.revision(path + "/map"));
  }

  private String state(int page) {
    return api.get("/api/books/" + book).path("pages").path(page - 1).path("state").asString();
  }

  private JsonNode map() {
    return api.get("/api/books/" + book + "/map");
  }

  private JsonNode bar(String id) {
    for (JsonNode bar : map().path("bars")) {
      if (bar.path("id").asString().equals(id)) {
        return bar;
      }
    }
    throw new AssertionError("no bar " + id);
  }

  private Map<String, Integer> numbers() {
    Map<String, Integer> numbers = new java.util.HashMap<>();
    for (JsonNode bar : map().path("bars")) {
      numbers.put(bar.path("id").asString(), bar.path("number").asInt());
    }
    return numbers;
  }
}
