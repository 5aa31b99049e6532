package org.barmap.browser;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Predicate;
import java.util.stream.StreamSupport;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Content;
import org.barmap.map.Outline;
import org.barmap.map.Page;
import org.barmap.map.Point;
import org.barmap.map.RehearsalMark;
import org.barmap.map.StaffSystem;
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
    book = ReadyBook.into(data, DeskBrowserTest::written);
    visit(data, 1440, 900);
  }

  /** As if two things had been written over the first lines of the first page. */
  private static BarMap written(BarMap map) {
    Page first = map.pages().get(0);
    List<Page.HandMark> marks = new ArrayList<>();
    for (StaffSystem line : first.systems().subList(0, 2)) {
      Point at = line.outline().topLeft();
      double space = line.staffSpace();
      marks.add(
          new Page.HandMark(
              Outline.box(
                  at.x() + 20 * space, at.y() - 4 * space, at.x() + 25 * space, at.y() - 2 * space),
              Optional.empty(),
              Optional.of("wait" + line.index()),
              Optional.of(0.95)));
    }
    List<Page> pages = new ArrayList<>(map.pages());
    pages.set(0, first.withByHand(marks));
    return new BarMap(map.format(), map.book(), pages, map.numbers(), map.bars(), map.findings());
  }

  @Test
  void whatOthersWroteIsRubbedOutOrCarriedOverOrNoMark() {
    browser.go("/desk.html?b=" + book + "&p=" + first().index());
    browser.count(".overlay .by-hand", 2, 20);
    browser.click("#tab-bar");
    browser.see(".written li", "wait1");
    browser.click(".written li:first-child .rub");
    browser.see(".written li:first-child .rub[aria-pressed=true]");
    JsonNode written = api.get("/api/books/" + book + "/marks").path("written");
    assertThat(written.size()).isEqualTo(1);
    assertThat(written.path(0).path("mark").asString("")).isEqualTo("by hand: wait1");
    String bar = written.path(0).path("bar").asString("");
    assertThat(bar(bar).system()).isEqualTo(1);
    browser.click(".written li:last-child .btn-quiet");
    browser.count(".overlay .by-hand", 1, 20);
    browser.count(".written li", 1, 20);
    browser.click(".written a.btn");
    browser.see(".choose-text", "bar " + bar(bar).number());
    assertThat(browser.complaints()).isEmpty();
  }

  private Page first() {
    JsonNode pages = api.get("/api/books/" + book + "/map").path("pages");
    return BarMapJson.mapper().treeToValue(pages.path(0), Page.class);
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
    for (String[] said :
        new String[][] {
          {"C|", "2/2"},
          {"C", "4/4"},
          {"c |", "2/2"},
          {"common time", "4/4"},
          {"alla breve", "2/2"},
          {" 12 / 8 ", "12/8"},
          {"5/16", "5/16"},
          {"\u00A2", "2/2"},
          {"C", "4/4"}
        }) {
      browser.type("#meter", said[0] + Keys.ENTER);
      browser.waiting(20).until(d -> meter(id).equals(said[1]));
    }
    for (String none : List.of("0/4", "4/3", "4", "fast")) {
      browser.type("#meter", none + Keys.TAB);
      browser.see(".bar-form", "Write it as it is drawn");
    }
    assertThat(meter(id)).isEqualTo("4/4");
    browser.empty("#meter");
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
    browser.see("dialog", "Somebody else was faster");
    browser.click("dialog .dialog-foot button:not([type=submit])");
    browser.count("dialog[open]", 0, 20);
    assertThat(markOf(id)).isEqualTo("Q");
    browser.block();
    browser.complaints(); // the blocked line was meant
  }

  /** A red frame says why, in words that a screen reader says too, and goes when it is right. */
  @Test
  void whatIsNotUnderstoodSaysHowToWriteIt() {
    open(b -> b.number() == 28 && b.content() == Content.MUSIC);
    browser.type("#meter", "three" + Keys.ENTER);
    browser.see("#meter-why", "4/4, 6/8, C or C|");
    assertThat(browser.attribute("#meter", "aria-describedby")).isEqualTo("meter-why");
    browser.type("#tempo", "4000" + Keys.ENTER);
    browser.see("#tempo-why", "from 20 to 400");
    fold("Bar number");
    browser.type("#bar-number", "many" + Keys.ENTER);
    browser.see("#bar-number-why", "whole number");
    assertThat(Axe.violations(browser)).isEmpty();
    browser.type("#bar-number", "28" + Keys.ENTER);
    browser.count("#bar-number-why", 0, 20);
    browser.waiting(20).until(d -> !"BODY".equals(focused())); // the keys stay with the page
    assertThat(browser.complaints()).isEmpty();
  }

  private String focused() {
    return browser.script("return document.activeElement.tagName").toString();
  }

  /** Nobody can see how many bars of a rest come before a line in it; what is left out is said. */
  @Test
  void aBarlineInARestAsksHowManyComeBeforeIt() {
    String id = open(b -> b.count() == 12 && b.page() == 1);
    browser.press("b");
    browser.press(Keys.ENTER);
    browser.see("dialog", "A barline in the rest");
    assertThat(browser.see("dialog [name=before]").getDomProperty("value")).isEqualTo("6");
    browser.type("dialog [name=before]", "12");
    browser.see("dialog .field-hint", "a bar of music after the line");
    browser.type("dialog [name=before]", "5");
    browser.see("dialog .field-hint", "Then 7 bars of rest after the line.");
    assertThat(Axe.violations(browser)).isEmpty();
    browser.click("dialog [type=submit]");
    browser.waiting(20).until(d -> bar(id).count() == 5);
    assertThat(bars().get(place(id) + 1).count()).isEqualTo(7);
    browser.undo();
    browser.waiting(20).until(d -> bar(id).count() == 12);
    assertThat(focused()).isNotEqualTo("BODY");
  }

  @Test
  void aLineIsTakenOutOnlyWhenThatIsMeant() {
    String id = open(b -> b.page() == 3 && b.system() == 2);
    int before = bars().size();
    int line = lineOf(3, 2).size();
    browser.click("#remove-line");
    browser.see("dialog", "Take out line 2?");
    browser.click("dialog .dialog-foot button:not([type=submit])");
    browser.count("dialog[open]", 0, 20);
    assertThat(bars()).hasSize(before);
    browser.click("#remove-line");
    browser.click("dialog [type=submit]");
    browser.waiting(20).until(d -> bars().size() == before - line);
    browser.undo();
    browser.waiting(20).until(d -> bars().stream().anyMatch(b -> b.id().equals(id)));
    assertThat(browser.complaints()).isEmpty();
  }

  /** What a number is called is typed where it starts. */
  @Test
  void aMusicalNumberIsNamedWhereItStarts() {
    String id = open(b -> b.page() == 4 && b.number() == 1);
    browser.press("s");
    browser.waiting(20).until(d -> "number-label".equals(browser.script(FOCUS)));
    browser.press("4A", Keys.ENTER);
    browser.waiting(20).until(d -> labels().contains("4A"));
    browser.see(".bar-form", "No. 4A");
    browser.waiting(20).until(d -> !"BODY".equals(focused()));
    browser.undo();
    browser.waiting(20).until(d -> labels().contains("4"));
    assertThat(bar(id).number()).isEqualTo(1);
  }

  private static final String FOCUS = "return document.activeElement.id";

  private List<String> labels() {
    JsonNode numbers = api.get("/api/books/" + book + "/map").path("numbers");
    return StreamSupport.stream(numbers.spliterator(), false)
        .map(n -> n.path("label").asString())
        .toList();
  }

  /**
   * What is written under a bar doesn't run into what is written beside it, the signs of doubt
   * aside; in the dark as well nothing stands in anybody's way.
   */
  @Test
  void labelsInNarrowBarsStayApart() {
    browser.script("localStorage.setItem('barmap.theme', 'dark')");
    for (int page : List.of(1, 6, 9)) {
      browser.go("/desk.html?b=" + book + "&p=" + page);
      browser.see(".bar-field");
      browser.press("0");
      assertThat((List<?>) browser.script(COLLIDING)).as("page " + page).isEmpty();
    }
    assertThat(Axe.violations(browser)).isEmpty();
    browser.press("h");
    browser.see("#tab-history[aria-selected=true]");
    assertThat(Axe.violations(browser)).isEmpty();
    browser.script("localStorage.removeItem('barmap.theme')");
    for (int width : List.of(820, 390)) {
      browser.size(width, 900);
      browser.go("/desk.html?b=" + book + "&p=1&bar=" + bars().get(8).id());
      browser.see(".bar-form");
      assertThat(Axe.violations(browser)).as(width + " wide").isEmpty();
    }
    browser.size(1440, 900);
  }

  /** Plates and numbers by what of each other they cover, CSS pixels. */
  private static final String COLLIDING =
      """
      const all = [...document.querySelectorAll(".bar-number, .pill:not(.pill-doubt) rect")]
        .map((node) => ({ box: node.getBoundingClientRect(), said: node.closest("[data-bar]").dataset.bar + " " + (node.textContent || node.parentElement.textContent) }));
      const found = [];
      for (const [i, a] of all.entries()) for (const b of all.slice(i + 1)) {
        const wide = Math.min(a.box.right, b.box.right) - Math.max(a.box.left, b.box.left);
        const high = Math.min(a.box.bottom, b.box.bottom) - Math.max(a.box.top, b.box.top);
        if (wide > 1 && high > 1) found.push(`${a.said} and ${b.said}: ${wide.toFixed(1)}`);
      }
      return found;
      """;

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
    return lineOf(1, line);
  }

  private List<Bar> lineOf(int page, int line) {
    return bars().stream().filter(b -> b.page() == page && b.system() == line).toList();
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
