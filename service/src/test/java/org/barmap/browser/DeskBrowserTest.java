package org.barmap.browser;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;
import java.util.stream.StreamSupport;
import org.barmap.map.Bar;
import org.barmap.map.Point;
import org.barmap.map.RehearsalMark;
import org.barmap.map.Word;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.change.term.TempoWords;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;
import org.openqa.selenium.WebElement;
import tools.jackson.databind.JsonNode;

/** What a player corrects by hand at the desk, field by field. */
class DeskBrowserTest extends VisitingTest {

  private String book = "";

  @BeforeAll
  void open(@TempDir Path data) throws IOException {
    book = ReadyBook.into(data);
    visit(data, 1440, 900);
  }

  @Test
  void wordsOfABarAreWritten() {
    String id = open(b -> b.words().size() == 1);
    Word was = bar(id).words().get(0);
    fold("Words and musical numbers");
    browser.see("#words").sendKeys(Keys.END, Keys.ENTER, "solo until 12");
    browser.see(".bar-title").click();
    browser.waiting(20).until(d -> bar(id).words().size() == 2);
    assertThat(bar(id).words()).extracting(Word::text).containsExactly(was.text(), "solo until 12");
    assertThat(bar(id).words().get(0)).as("what was read keeps its place").isEqualTo(was);
    assertThat(browser.complaints()).isEmpty();
  }

  @Test
  void aTempoHasAFieldOfItsOwn() {
    String id = open(b -> b.words().isEmpty() && b.number() == 5);
    browser.type("#tempo", "132" + Keys.ENTER);
    browser.waiting(20).until(d -> tempo(id) == 132);
    browser.choose("#tempo-beat", "half");
    browser.waiting(20).until(d -> tempo(id) == 264);
    browser.empty("#tempo");
    browser.waiting(20).until(d -> bar(id).words().isEmpty());
    assertThat(browser.complaints()).isEmpty();
  }

  /** Common time is four quarters, cut time two halves (common practice). */
  @Test
  void commonAndCutTimeAreMeters() {
    String id = open(b -> b.number() == 7 && b.meter().filter(m -> !m.printed()).isPresent());
    browser.type("#meter", "C|" + Keys.ENTER);
    browser.waiting(20).until(d -> meter(id).equals("2/2"));
    browser.type("#meter", "C" + Keys.ENTER);
    browser.waiting(20).until(d -> meter(id).equals("4/4"));
    assertThat(browser.complaints()).isEmpty();
  }

  @Test
  void aRehearsalMarkMovesByKeysAndByHand() {
    String id = open(b -> b.rehearsal().isPresent() && b.number() > 1);
    String mark = bar(id).rehearsal().orElseThrow().text();
    int at = place(id);
    String next = bars().get(at + 1).id();
    browser.press(".");
    browser.see(".bar-form[data-bar='" + next + "']");
    assertThat(markOf(next)).isEqualTo(mark);
    assertThat(markOf(id)).isEmpty();
    browser.click("#mark-back");
    browser.see(".bar-form[data-bar='" + id + "']");
    assertThat(markOf(id)).isEqualTo(mark);
    WebElement plate = browser.see("[data-bar='" + id + "'] .pill-mark rect");
    browser
        .actions()
        .moveToElement(plate)
        .clickAndHold()
        .moveToElement(browser.see("[data-bar='" + next + "'] .bar-field"))
        .release()
        .perform();
    browser.see(".bar-form[data-bar='" + next + "']");
    assertThat(markOf(next)).isEqualTo(mark);
    browser.undo();
    browser.waiting(20).until(d -> markOf(id).equals(mark));
    assertThat(browser.complaints()).isEmpty();
  }

  /** As pages being read do: the book is settled anew between what was seen and what is said. */
  @Test
  void whatStillMeansTheSameIsMadeWhenTheBookWentOnMeanwhile() {
    browser.block("*/events*"); // what the page was not told of yet
    String id = open(b -> b.number() == 3);
    String other = bars().get(place(id) + 2).id();
    String path = "/api/books/" + book;
    api.post(path + "/corrections", label(other, "x"), api.revision(path + "/map"));
    browser.type("#mark", "Q" + Keys.ENTER);
    browser.waiting(20).until(d -> markOf(id).equals("Q"));
    assertThat(browser.all(".toast")).noneMatch(t -> t.getText().contains("Someone else"));
    api.post(path + "/corrections", label(id, "y"), api.revision(path + "/map"));
    browser.type("#mark", "R" + Keys.ENTER);
    browser.see(".toast", "Someone else changed this book");
    assertThat(markOf(id)).isEqualTo("Q");
    browser.block();
    browser.complaints(); // the blocked line was meant
  }

  /**
   * A line the reader missed is drawn by hand, and read as it is printed; one step takes it back.
   */
  @Test
  void aLineDrawnByHandIsRead() {
    int line = 5;
    List<Bar> printed = lineOf(line);
    String path = "/api/books/" + book;
    Map<String, ?> out = Map.of("kind", "remove-system", "page", 1, "system", line);
    api.post(path + "/corrections", out, api.revision(path + "/map"));
    browser.go("/desk.html?b=" + book + "&p=1");
    browser.see(".bar-field");
    browser.press("0"); // the whole page
    browser.press(Keys.ESCAPE);
    browser.click("#tab-bar");
    browser.click("#add-line");
    Bar first = printed.get(0);
    Bar last = printed.get(printed.size() - 1);
    List<?> from = screen(first.outline().topLeft(), -8);
    List<?> to = screen(last.outline().bottomRight(), 8);
    browser.script(
        "window.notes = []; const note = document.querySelector('.stage-note');"
            + "new MutationObserver(() => notes.push(note.textContent)).observe(note, {childList:"
            + " true, characterData: true, subtree: true})");
    browser.drag(from, to);
    browser.see(".bar-form");
    assertThat(browser.script("return notes.join()").toString()).contains("Reading the line");
    assertThat(lineOf(line).stream().map(DeskBrowserTest::said).toList())
        .isEqualTo(printed.stream().map(DeskBrowserTest::said).toList());
    browser.press("h");
    browser.see(".history", "Line read on page 1: " + printed.size() + " bars");
    int with = bars().size();
    browser.undo();
    browser.waiting(20).until(d -> bars().size() == with - printed.size());
    browser.undo(); // the line is there again as it was
    assertThat(browser.complaints()).isEmpty();
  }

  private static String said(Bar b) {
    return b.number()
        + " "
        + b.content()
        + " "
        + b.count()
        + b.rehearsal().map(m -> " " + m.text()).orElse("");
  }

  private List<Bar> lineOf(int line) {
    return bars().stream().filter(b -> b.page() == 1 && b.system() == line).toList();
  }

  /** Where a point of the page is on the screen; moved down and to the right by so much. */
  private List<?> screen(Point p, double by) {
    return browser.screen(p.x() + by, p.y() + by);
  }

  private static Map<String, String> label(String bar, String label) {
    return Map.of("kind", "set-label", "bar", bar, "label", label);
  }

  private String markOf(String id) {
    return bar(id).rehearsal().map(RehearsalMark::text).orElse("");
  }

  private int place(String id) {
    return bars().stream().map(Bar::id).toList().indexOf(id);
  }

  private String meter(String id) {
    return bar(id).meter().map(m -> m.beats() + "/" + m.unit()).orElse("");
  }

  private double tempo(String id) {
    return TempoWords.of(bar(id).words()).figure().orElse(0);
  }

  private void fold(String name) {
    WebElement fold = browser.see("[data-fold='" + name + "']");
    if (fold.getDomAttribute("open") == null) {
      fold.findElement(By.tagName("summary")).click();
    }
  }

  /** Opens the desk at the first bar of a kind, as a link from elsewhere does. */
  private String open(Predicate<Bar> wanted) {
    Bar bar = bars().stream().filter(wanted).findFirst().orElseThrow();
    browser.go("/desk.html?b=" + book + "&p=" + bar.page() + "&bar=" + bar.id());
    browser.see(".bar-form[data-bar='" + bar.id() + "']");
    return bar.id();
  }

  private List<Bar> bars() {
    JsonNode all = api.get("/api/books/" + book + "/map").path("bars");
    return StreamSupport.stream(all.spliterator(), false)
        .map(b -> BarMapJson.mapper().treeToValue(b, Bar.class))
        .toList();
  }

  private Bar bar(String id) {
    return bars().stream().filter(b -> b.id().equals(id)).findFirst().orElseThrow();
  }
}
