package org.barmap.browser;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.StreamSupport;
import org.barmap.map.Bar;
import org.barmap.map.Content;
import org.barmap.map.json.BarMapJson;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;
import tools.jackson.databind.JsonNode;

/**
 * The director's score beside a page: attached, its part chosen, asked about, taken away; the
 * director's bar numbers beside a book.
 */
class SecondReadingBrowserTest {

  private static final String PAGE = "page-01";

  /** The demo book's No. 1 has A at 14, B at 26 … F at 102; here are 4 bars more before B. */
  private static final String LIST = "1: A 14, B 30, C 41, D 55, E 77, F 106, end 118\n2: end 115";

  @TempDir private Path folder;

  @Test
  void aScoreIsAttachedItsPartChosenAndTakenAway() throws IOException {
    List<Bar> truth = BarMapJson.read(DemoBook.page(PAGE + ".json")).bars();
    Bar rest =
        truth.stream().filter(b -> b.content() == Content.MULTI_REST).findFirst().orElseThrow();
    Path score = folder.resolve("score.musicxml");
    Files.writeString(score, score(truth, rest, rest.count() + 1));
    Path broken = folder.resolve("notes.xml");
    Files.writeString(broken, "<html>no score</html>");
    try (Visit visit = Visit.to(folder.resolve("data"), 1440, 900)) {
      Browser browser = visit.browser();
      String book = visit.newBook("Saltmarsh", "Bass");
      browser.files("#choose-files", List.of(DemoBook.page(PAGE + ".png")));
      browser.count(".thumb[data-state=read]", 1, 120);

      browser.click("#second summary");
      browser.files("#choose-second", List.of(broken));
      browser.see(".toast", "no MusicXML file");
      browser.see("#second-attach");
      browser.files("#choose-second", List.of(score));
      browser.see("#second", "score.musicxml");
      browser.see("#second", "It has 2 parts. Choose this chair's");
      assertThat(differences(visit.api(), book)).isEmpty();

      browser.choose("#second-part", "P2");
      browser.see("#second", "Its part Low Strings");
      browser.waiting(30).until(d -> !differences(visit.api(), book).isEmpty());
      browser.click("#second-remove");
      browser.see("#second-attach");
      browser.waiting(30).until(d -> differences(visit.api(), book).isEmpty());

      aBookOfItsOwn(browser, score);
      assertThat(browser.complaints()).allMatch(c -> c.contains("422") || c.contains("400"));
    }
  }

  /** The same score opened on the shelf asks whose part it is; no room shows an empty picture. */
  private static void aBookOfItsOwn(Browser browser, Path score) {
    browser.go("/");
    browser.count(".book", 1, 60);
    browser.files("#open-files", List.of(score));
    browser.see(".dialog", "Whose part of score.musicxml is yours?");
    browser.choose(".dialog select", "2");
    browser.click(".dialog .btn-main");
    browser.count(".book", 2, 60);
    String address =
        browser.all(".book").stream()
            .filter(card -> card.getText().contains("Low Strings"))
            .map(card -> card.findElement(By.cssSelector("h2 a")).getAttribute("href"))
            .map(String::valueOf)
            .findFirst()
            .orElseThrow();
    browser.go(address.substring(address.indexOf("/book.html")));
    browser.see(".thumb", "came from a score file");
    assertThat(browser.all(".thumb img")).isEmpty();
    browser.see("#score-remarks", "From a score file");
    browser.click(".thumb-link");
    browser.see(".stage-from", "there is no picture");
    browser.see(".bar");
    assertThat(browser.all(".stage.drawn")).hasSize(1);
  }

  /** What the doubts say of the second reading. */
  private static List<String> differences(Api api, String book) {
    JsonNode doubts = api.get("/api/books/" + book + "/doubts").path("doubts");
    return StreamSupport.stream(doubts.spliterator(), false)
        .map(d -> d.path("text").asString())
        .filter(t -> t.contains("second reading"))
        .toList();
  }

  /** A full score of two parts, every bar of it drawn; MusicXML 4.0, score-partwise. */
  private static String score(List<Bar> bars, Bar other, int count) {
    StringBuilder measures = new StringBuilder();
    int number = bars.get(0).number();
    for (Bar bar : bars) {
      int many = bar.id().equals(other.id()) ? count : bar.count();
      for (int i = 0; i < many; i++) {
        measures.append("<measure number=\"").append(number++).append("\"><note>");
        measures.append(
            bar.isRest()
                ? "<rest measure=\"yes\"/>"
                : "<pitch><step>C</step><octave>3</octave></pitch>");
        measures.append("<duration>4</duration></note></measure>");
      }
    }
    return "<score-partwise version=\"4.0\"><part-list>"
        + "<score-part id=\"P1\"><part-name>Reed 1</part-name></score-part>"
        + "<score-part id=\"P2\"><part-name>Low Strings</part-name></score-part></part-list>"
        + "<part id=\"P1\">%1$s</part><part id=\"P2\">%1$s</part></score-partwise>"
            .formatted(measures);
  }

  @Test
  void aDirectorsListIsTypedCorrectedAndReadBesideTheChanges() throws IOException {
    Path data = folder.resolve("ready");
    String book = ReadyBook.into(data);
    try (Visit visit = Visit.to(data, 1440, 900)) {
      DemoBook.changesInto(visit.api(), book);
      besideAPart(visit.browser(), book);
    }
  }

  private static void besideAPart(Browser browser, String book) {
    browser.go("/align.html?b=" + book);
    browser.click("#align-type");
    browser.type("dialog textarea", "1: A 14");
    browser.click("dialog [type=submit]");
    browser.see(".toast", "say at which bar it ends");
    browser.click("#align-type");
    browser.type("dialog textarea", LIST);
    assertThat(Axe.violations(browser)).isEmpty();
    browser.click("dialog [type=submit]");
    browser.see("#align-head", "2 numbers in both");
    browser.see("#align-head", "Only in");
    browser.see("#align-0 .align-unsure", "not sure which is which");
    assertThat(Axe.violations(browser)).isEmpty();

    browser.type("#pin-here-0", "20");
    browser.type("#pin-there-0", "20");
    browser.press(Keys.ENTER);
    browser.see("#align-0 .align-pins", "You said");
    browser.size(390, 844);
    assertThat(browser.script("return document.documentElement.scrollWidth <= innerWidth"))
        .isEqualTo(true);
    assertThat(Axe.violations(browser)).isEmpty();
    browser.size(1440, 900);

    browser.click("#carry-there");
    browser.see("dialog", "can't be carried");
    assertThat(Axe.violations(browser)).isEmpty();
    browser.press(Keys.ESCAPE);
    browser.go("/road.html?b=" + book);
    browser.see(".change-beside", "Director:");
    inTheDirectorsBars(browser, book);
    browser.go("/align.html?b=" + book);
    browser.click("#align-remove");
    browser.click("dialog [type=submit]");
    browser.see("#align-none");
    assertThat(browser.complaints()).allMatch(c -> c.contains("422"));
  }

  /**
   * The words go by the director's bars when one says so; both numbers are read back everywhere.
   */
  private static void inTheDirectorsBars(Browser browser, String book) {
    browser.type("#change-words", "No. 1: cut 57 to 60");
    browser.click("#words-whose input[value=other]");
    browser.click("#read-words");
    browser.see(".understood .line", "cut 53 to 56 [Director 57 to 60]");
    assertThat(Axe.violations(browser)).isEmpty();
    browser.go("/turns.html?b=" + book);
    browser.see(".turn", "[Director");
    browser.go("/turns.html?b=" + book + "#rests");
    browser.see(".view .item", "[Director");
    browser.go("/stand.html?b=" + book);
    browser.click("#stand-begin");
    String about = "return document.querySelector('.stand-about').textContent";
    for (int i = 0; i < 20 && !String.valueOf(browser.script(about)).contains("Director"); i++) {
      browser.press(Keys.PAGE_DOWN);
    }
    browser.see(".stand-about", "Director");
  }
}
