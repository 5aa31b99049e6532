package org.barmap.browser.print;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.UnaryOperator;
import org.barmap.browser.Api;
import org.barmap.browser.Browser;
import org.barmap.browser.DemoBook;
import org.barmap.browser.RunningService;
import org.barmap.library.Pages;
import org.barmap.library.sqlite.SqliteLibrary;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Finding;
import org.barmap.map.Severity;
import org.barmap.map.Stage;
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
 * What readers take for something else: every answer says what it would change, one that is right
 * is among them, and what was answered rightly is not asked again.
 */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
@TestMethodOrder(MethodOrderer.OrderAnnotation.class)
class OddPrintBrowserTest {

  private RunningService service;
  private Browser browser;
  private Api api;
  private Path data;

  @SuppressWarnings("NullAway.Init") // before all tests
  OddPrintBrowserTest() {}

  private String rests = "";
  private String letters = "";
  private String misread = "";
  private String kinds = "";

  @BeforeAll
  void open(@TempDir Path folder) throws IOException {
    data = folder;
    try (SqliteLibrary library = SqliteLibrary.open(data, Clock.systemUTC())) {
      rests = laid(library, wholeNotes());
      letters = laid(library, letters());
      misread = laid(library, misread());
      kinds = laid(library, ofEveryKind());
    }
    service = RunningService.start(data);
    browser = Browser.open(service, 1440, 900);
    api = new Api(service);
  }

  @AfterAll
  void close() {
    browser.close();
    service.close();
  }

  private static String laid(SqliteLibrary library, BarMap map) {
    String book = library.books().add(map.book().title(), map.book().part()).id();
    library
        .pages()
        .add(
            book,
            List.of(new Pages.NewPage("page-1.png", "", 2480, 3508, Optional.empty())),
            Optional.empty());
    library.readings().lay(book, library.readings().material(book), map);
    return book;
  }

  private static OddPage begun() {
    return new OddPage()
        .line(List.of(""), 0, 0, 0, 0)
        .line(List.of("5"), 0, 0, 0, 0)
        .line(List.of("9"), 0, 0, 0, 0)
        .line(List.of("13"), 0, 0, 0, 0);
  }

  /** Bars 18 and 26 are whole notes whose surroundings look like a numeral. */
  private static BarMap wholeNotes() {
    return begun()
        .line(List.of("17"), 0, 120, 0, 0)
        .line(List.of(""), 0, 0, 0, 0)
        .line(List.of(""), 0, 106, 0, 0)
        .settled("Whole notes");
  }

  /**
   * After 23 come 23A and 23B, then 24: bars put in at a revival (common practice). After 30 come
   * 30A and 30B, whose letters were not read.
   */
  private static BarMap letters() {
    return begun()
        .line(List.of("17"), 0, 0, 0, 0)
        .line(List.of("21", "", "", "23A"), 0, 0, 0, 0)
        .line(List.of("23B"), 0, 0, 0, 0)
        .line(List.of("27"), 0, 0, 0, 0)
        .line(List.of("30", "308"), 0, 0, 0, 0)
        .settled("Letters");
  }

  /** At the sixth line 21 is printed, and looks like 135. */
  private static BarMap misread() {
    return begun()
        .line(List.of("17"), 0, 0, 0, 0)
        .line(List.of("135"), 0, 0, 0, 0)
        .line(List.of("25"), 0, 0, 0, 0)
        .settled("A misread number");
  }

  /** What may be asked at a bar, one of each kind. */
  private static final List<String> KINDS =
      List.of(
          "barline-missing",
          "barline-refused",
          "barline-unsure",
          "bars-missing",
          "content-unsure",
          "count-missing",
          "count-settled",
          "count-unsure",
          "mark-settled",
          "mark-unsure",
          "meter-unsure",
          "number-begins",
          "number-misread",
          "number-start",
          "numbers-jump",
          "order-back",
          "order-gap",
          "order-same",
          "print-differs",
          "second-bars",
          "second-differs",
          "second-mark",
          "second-number",
          "second-other");

  private static BarMap ofEveryKind() {
    OddPage page = begun();
    for (int line = 5; line <= 7; line++) {
      page.line(List.of(""), 0, 0, 0, 0);
    }
    BarMap map = page.settled("Every kind");
    List<Bar> bars = map.bars().stream().map(withoutEvidence()).toList();
    List<Finding> all = new ArrayList<>();
    for (String code : KINDS) {
      Bar at = bars.get(all.size());
      all.add(
          Finding.ofBar(
              Severity.DOUBT, Stage.RECKON, at, code, "Asked: " + code, answers(code, at), 1));
    }
    return map.withBars(bars).withFindings(all);
  }

  private static List<Finding.Answer> answers(String code, Bar at) {
    return code.equals("second-mark")
        ? List.of(
            new Finding.Answer(
                "It is J",
                Map.of("kind", "set-rehearsal", "bar", at.id(), "text", "J", "enclosure", "box")))
        : List.of();
  }

  private static UnaryOperator<Bar> withoutEvidence() {
    return b -> b.toBuilder().evidence(Optional.empty()).build();
  }

  /** That it is a note is offered, and what would follow is said before: here 119 bars go. */
  @Test
  void aWholeNoteCountedAsALongRestIsMusicByOneAnswer() {
    desk(rests);
    browser.see(doubt("count-unsure", "b18"), "rest of 120");
    String music = answer("count-unsure", "b18", "It is music", "119 bars fewer");
    browser.see(music + " .follows", "115 bars renumbered, from 138 → 19");
    browser.see(music + " .follows", "1 doubt left");
    browser.click(music + " button");
    browser.count(doubt("count-unsure", "b18"), 0, 20);
    assertThat(bar(rests, "b18").path("content").asString()).isEqualTo("music");
    String other = answer("count-unsure", "b26", "It is music", "105 bars fewer");
    browser.see(other + " .follows", "no doubt left");
    browser.see(doubt("count-unsure", "b26") + " .other", "None of these. Bars of rest");
    browser.type(doubt("count-unsure", "b26") + " .other-field", "3");
    browser.see(doubt("count-unsure", "b26") + " .other .follows", "103 bars fewer");
    browser.click(other + " button");
    browser.count(".doubt", 0, 20);
    assertThat(lastNumber(rests)).isEqualTo(28);
    assertThat(browser.complaints()).allMatch(OddPrintBrowserTest::isPicture);
  }

  /** The page has no picture here. */
  private static boolean isPicture(String complaint) {
    return complaint.contains("/image") || complaint.contains("/crop");
  }

  @Test
  void barsThatArePrintedWithALetterAreCalledSoByOneAnswerEach() {
    desk(letters);
    browser.see(doubt("number-misread", "b24"), "A printed 23A");
    String first = answer("number-misread", "b24", "This bar is 23A", "");
    browser.click(first + " button");
    browser.count(doubt("number-misread", "b24"), 0, 20);
    browser.click(answer("number-misread", "b25", "This bar is 23B", "") + " button");
    browser.count(doubt("number-misread", "b25"), 0, 20);
    call("b33", "30A");
    call("b34", "30B");
    browser.count(".doubt", 0, 20);
    assertThat(names(letters).subList(21, 36))
        .containsExactly(
            "22", "23", "23A", "23B", "24", "25", "26", "27", "28", "29", "30", "30A", "30B", "31",
            "32");
    assertThat(browser.complaints()).allMatch(OddPrintBrowserTest::isPicture);
  }

  /** Where the letters were not read none of the answers is right: the field takes them. */
  private void call(String bar, String name) {
    String field = doubt("number-misread", bar) + " .other-field";
    browser.type(field, name);
    browser.see(doubt("number-misread", bar) + " .other .follows", "doubt");
    browser.see(field).sendKeys(Keys.ENTER);
    browser.count(doubt("number-misread", bar), 0, 20);
  }

  @Test
  void aMisreadNumberBelievedSaysWhatItTearsAndAsksThatThen() {
    desk(misread);
    String believed = answer("number-misread", "b21", "This bar is 135", "8 bars renumbered");
    browser.see(believed + " .follows", "from 21 → 135");
    browser.see(believed + " .follows", "then asked: The numbers go from 20 to 135 here");
    browser.click(believed + " button");
    browser.see(".doubt[data-code=numbers-jump]", "21 to 134 are nowhere");
    browser.see(
        ".doubt[data-code=number-misread]", "A printed 25 was read here, but counting gives 139");
    assertThat(browser.all(".doubt")).hasSize(2);
    browser.undo();
    browser.see(doubt("number-misread", "b21"));
    browser.click(answer("number-misread", "b21", "The printed 135 was misread", "") + " button");
    browser.count(".doubt", 0, 20);
    assertThat(lastNumber(misread)).isEqualTo(28);
  }

  /** A barline too many before the first printed number lets the count begin at 0. */
  @Test
  void aBarlineThatMovesTheBeginningIsAsked() {
    browser.go("/desk.html?b=" + misread + "&p=1&bar=b2");
    browser.see(".bar-form[data-bar='b2']");
    browser.press("b");
    browser.press(Keys.ENTER);
    browser.waiting(20).until(d -> bar(misread, "b1").path("number").asInt() == 0);
    browser.click("#tab-doubts");
    browser.see(".doubt[data-code=number-begins]", "Counting begins at 0 here");
    browser.see(".doubt[data-code=number-begins] .answer", "It begins with a pickup, 0");
    browser.undo();
    browser.count(".doubt[data-code=number-begins]", 0, 20);
  }

  /** Whatever is asked of a bar, there is a field for what nobody thought of. */
  @Test
  void noneOfTheseHasAFieldWhateverIsAsked() {
    desk(kinds);
    browser.count(".doubt", KINDS.size(), 20);
    for (String code : KINDS) {
      browser.see(".doubt[data-code=" + code + "] .other", "None of these");
      assertThat(browser.all(".doubt[data-code=" + code + "] .other-field")).as(code).hasSize(1);
    }
    browser.type(".doubt[data-code=second-mark] .other-field", "K");
    browser.see(".doubt[data-code=second-mark] .other .follows", "23 doubts left");
    browser.click(".doubt[data-code=second-mark] .other button");
    browser.count(".doubt[data-code=second-mark]", 0, 20);
  }

  /** Somebody answered meanwhile, and this page has not heard of it: the click is no mistake. */
  @Test
  @Order(Integer.MAX_VALUE)
  void aDoubtThatIsGoneMeanwhileIsNoMistake() {
    browser.block("*/events*");
    desk(kinds);
    browser.see(".doubt[data-code=mark-unsure]");
    String path = "/api/books/" + kinds;
    String bar = map(kinds).path("bars").path(KINDS.indexOf("mark-unsure")).path("id").asString();
    api.post(
        path + "/corrections",
        Map.of("kind", "dismiss-doubt", "code", "mark-unsure", "bar", bar, "page", 1),
        api.revision(path + "/map"));
    browser.click(".doubt[data-code=mark-unsure] .answer:first-child button");
    browser.count(".doubt[data-code=mark-unsure]", 0, 20);
    assertThat(browser.all(".toast-bad")).isEmpty();
    browser.block();
  }

  /** Printed over one line: "No. 3 TACET", and below it the name of what is played, No. 4. */
  @Test
  void theMusicBelowASilentNumberHasItsOwn() {
    browser.go("/");
    browser.click("#new-book");
    browser.type("dialog [name=title]", "Tacet");
    browser.type("dialog [name=part]", "Bass");
    browser.click("dialog [type=submit]");
    browser.see("h1", "Tacet");
    String book =
        String.valueOf(browser.script("return new URLSearchParams(location.search).get('b')"));
    browser.files("#choose-files", List.of(DemoBook.page("page-04.png")));
    browser.count(".thumb[data-state=read]", 1, 120);
    browser.waiting(20).until(d -> map(book).path("numbers").size() > 0);
    List<String> numbers = new ArrayList<>();
    for (JsonNode n : map(book).path("numbers")) {
      numbers.add(n.path("label").asString() + (n.path("tacet").asBoolean(false) ? " tacet" : ""));
    }
    assertThat(numbers).contains("3 tacet", "4").doesNotContain("3");
    browser.go("/road.html?b=" + book);
    browser.see(".number[data-number='4']", "A Boat for the Widow");
    browser.see(".number[data-number='3']", "acet");
  }

  private void desk(String book) {
    browser.go("/desk.html?b=" + book);
    browser.see(".doubt");
  }

  private String doubt(String code, String bar) {
    return ".doubt[data-code=" + code + "][data-bar='" + bar + "']";
  }

  /** Returns the answer of a doubt that says this, once what follows from it is said. */
  private String answer(String code, String bar, String label, String follows) {
    String all = doubt(code, bar) + " .answer";
    browser.see(all, label);
    for (int i = 1; i <= browser.all(all).size(); i++) {
      String one = all + ":nth-child(" + i + ")";
      if (browser.see(one + " button").getText().contains(label)) {
        browser.see(one + " .follows", follows);
        return one;
      }
    }
    throw new AssertionError(label + " is no answer");
  }

  private JsonNode map(String book) {
    return api.get("/api/books/" + book + "/map");
  }

  private JsonNode bar(String book, String id) {
    for (JsonNode bar : map(book).path("bars")) {
      if (bar.path("id").asString().equals(id)) {
        return bar;
      }
    }
    throw new AssertionError("no bar " + id);
  }

  private List<String> names(String book) {
    List<String> names = new ArrayList<>();
    map(book)
        .path("bars")
        .forEach(b -> names.add(b.path("label").asString(b.path("number").asString())));
    return names;
  }

  private int lastNumber(String book) {
    JsonNode bars = map(book).path("bars");
    return bars.path(bars.size() - 1).path("number").asInt();
  }
}
