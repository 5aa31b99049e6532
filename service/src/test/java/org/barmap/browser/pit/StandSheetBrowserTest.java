package org.barmap.browser.pit;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.barmap.browser.Browser;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;

/** The sheets as a player gets them: by the links of the rooms, read back from the PDF. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class StandSheetBrowserTest {

  private PitBook pit;

  @BeforeAll
  void open(@TempDir Path data) throws IOException {
    pit = PitBook.in(data, 1280, 900);
  }

  @AfterAll
  void close() {
    pit.close();
  }

  /** Gets what a link of the page leads to, as the browser does, and reads it. */
  private String sheet(String link) throws IOException {
    Browser browser = pit.browser();
    browser.see(link);
    String bytes =
        browser.answer(
            """
            const sent = await fetch(document.querySelector(`LINK`).href);
            const all = new Uint8Array(await sent.arrayBuffer());
            let text = "";
            for (const b of all) text += String.fromCharCode(b);
            done(btoa(text));
            """
                .replace("LINK", link));
    try (PDDocument document = Loader.loadPDF(Base64.getDecoder().decode(bytes))) {
      return new PDFTextStripper().getText(document).replaceAll("\\s+", " ");
    }
  }

  private static String ofNumber(String number) {
    return ".number[data-number='" + number + "'] a[href*='stand.pdf']";
  }

  /**
   * What the demo show changes in each number, where its pages are turned and what is looked out
   * for: by hand from changes.json and from the pages as drawn.
   */
  @Test
  void eachNumberHasItsOwnSheetWithAllOfIt() throws IOException {
    Map<String, List<String>> told =
        Map.of(
            "1",
            List.of(
                "1 Flood Tide (Overture)",
                "straight to bar 102",
                "Watch at 112",
                "Page 1 to 2 after bar",
                "In pencil"),
            "2",
            List.of(
                "2 Salt and Silver",
                "Vamp 10-11",
                "the cart stops",
                "lectric bass",
                "112-113",
                "three times",
                "In pencil"),
            "3",
            List.of("3 The Wading Song", "TACET"),
            "7",
            List.of("7 Spring Tide", "46A", "Then"));
    pit.browser().go("/road.html?b=" + pit.book());
    for (Map.Entry<String, List<String>> number : told.entrySet()) {
      String text = sheet(ofNumber(number.getKey()));
      assertThat(text).as("dated").contains("As of").contains("" + LocalDate.now().getYear());
      assertThat(text).contains(number.getValue());
    }
    assertThat(sheet(ofNumber("7"))).doesNotContain("Salt and Silver").doesNotContain("Vamp 10-11");
  }

  /** What is to be written and what is to be rubbed out are two lists. */
  @Test
  void marksToWriteAndMarksToEraseAreTwoLists() throws IOException {
    Browser browser = pit.browser();
    String turns = "/turns.html?b=" + pit.book();
    browser.go(turns);
    String write = ".sheet-links a[href*='pencil.pdf']";
    String erase = ".sheet-links a[href*='erase.pdf']";
    assertThat(sheet(write)).contains("Page 1");
    String before = sheet(erase);
    browser.go(turns + "#pencil");
    // a quarter note is a q where the typeface has no note
    String mark = browser.see(".tick-line b").getText().replace('\u2669', 'q');
    browser.click(".tick-line input");
    browser.see(".view p", "1 of ");
    browser.go(turns);
    assertThat(before).doesNotContain(mark);
    assertThat(sheet(erase)).contains(mark);
    browser.go(turns + "#erase");
    browser.count(".view .tick-line", 1, 10);
  }

  /** The director's changes, number by number in the order of the night. */
  @Test
  void theChangesSheetGoesByNumber() throws IOException {
    pit.browser().go("/turns.html?b=" + pit.book());
    String text = sheet(".sheet-links a[href*='changes.pdf']");
    List<Integer> places = new ArrayList<>();
    for (String heading :
        List.of(
            "No. 1 Flood Tide", "No. 2 Salt and Silver", "No. 5 Mrs. Fenn", "No. 7 Spring Tide")) {
      assertThat(text).contains(heading);
      places.add(text.indexOf(heading));
    }
    assertThat(places).isSorted();
    assertThat(text.substring(places.get(0), places.get(1))).contains("92").contains("101");
    assertThat(text.substring(places.get(1), places.get(2))).contains("the cart stops");
  }
}
