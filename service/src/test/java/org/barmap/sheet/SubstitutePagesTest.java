package org.barmap.sheet;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.barmap.map.BarMap;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.Changes;
import org.barmap.plan.Plan;
import org.barmap.plan.PlanSettings;
import org.barmap.plan.Planner;
import org.barmap.plan.cases.BookNotation;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.trap.Trap;
import org.junit.jupiter.api.Test;

/** The sheets for the substitute and for the hirer, read back side by side. */
class SubstitutePagesTest {
  private static final Path HOME = Path.of(System.getProperty("barmap.home", ".."));

  private static final String BOOK =
      "#1'Overture' 4/4 k-2 'Allegro \u2669 = 120' m8 @A R16 @B m8 / m4 'Broadly' m4 //"
          + " #2'Tide Song' 3/4 k+1 '\u2669 = 90' 'pizz.' m20 / k-3 '\u2669 = 140' 'arco' m10 @C m10"
          + " // m6 'Segue' #3'Gulls' 6/8 '\u2669. = 60' |: m8 :| 'pizz.' m8 R12 'To Elec. Bs.' m8"
          + " // m8 #4'Finale Act I' 2/2 'in two' m12 #5'Entr''acte' 4/4 m16 'Vamp' |: m2 :| m8"
          + " #6'Lanterns' 4/4 m8 #7'Bows' 4/4 m8";

  private static final String SAID =
      "No. 1: vamp 12 to 15 till the cart stops; watch at 33; G.P. after 36\n"
          + "No. 2: cut 15 to 30; hold in 40\n"
          + "No. 3: play 1 to 8 three times; in six from 17 to 20; attacca\n"
          + "No. 4: cut 6 beat 2 to 8 beat 2\n"
          + "No. 5: safety 3 to 4; insert 2 bars after 8 called 8A\n"
          + "No. 6: cut\nNo. 3: note: Molly is often late\n"
          + "No. 2: misprint: bar 12 should be B flat\nNo. 1: wrong note bar 30\n"
          + "order: 1, 3, 2, 4, 5, 6, 7";

  private static byte[] pdf(BarMap map, ShowChanges changes, SheetKind kind, SheetSettings how) {
    Plan plan = Planner.plan(map, changes, PlanSettings.USUAL);
    return Sheets.pdf(map, changes, plan, List.of(kind), how);
  }

  private static List<String> sides(byte[] pdf) throws IOException {
    List<String> sides = new ArrayList<>();
    try (PDDocument document = Loader.loadPDF(pdf)) {
      for (int i = 1; i <= document.getNumberOfPages(); i++) {
        PDFTextStripper one = new PDFTextStripper();
        one.setStartPage(i);
        one.setEndPage(i);
        sides.add(one.getText(document).replaceAll("\\s+", " "));
      }
    }
    return sides;
  }

  private static void keep(byte[] pdf, String name) throws IOException {
    String folder = System.getProperty("barmap.keep.sheets", "");
    if (!folder.isEmpty()) {
      Files.write(Path.of(folder, name), pdf);
    }
  }

  @Test
  void anActIsASideAndTheNightIsInOrder() throws IOException {
    BarMap map = BookNotation.read(BOOK).map();
    ShowChanges changes = Changes.said(map, SAID);
    byte[] pdf = pdf(map, changes, SheetKind.SUBSTITUTE, SheetSettings.USUAL);
    keep(pdf, "substitute-made.pdf");
    List<String> sides = sides(pdf);
    assertThat(sides).hasSize(2);
    assertThat(sides.get(0))
        .contains("For the substitute", "checked", "Act 1")
        .containsSubsequence(
            "1 Overture", "3 Gulls", "2 Tide Song", "4 Finale Act I", "hire agreement");
    assertThat(sides.get(1))
        .containsSubsequence(
            "For the substitute: act 2", "5 Entr'acte", "6 Lanterns", "CUT", "7 Bows");
    String all = String.join(" ", sides);
    Plan plan = Planner.plan(map, changes, PlanSettings.USUAL);
    assertThat(plan.traps()).hasSizeGreaterThan(12);
    for (Trap trap : plan.traps()) {
      assertThat(all).contains(trap.text().replace("\u2669", "q").replaceAll("\\s+", " "));
    }
    assertThat(all)
        .contains(
            "Note: Molly is often late",
            "Misprint: bar 12 should be B flat",
            "Misprint, bar 30: wrong note",
            "then ATTACCA")
        .contains("6/8 in 2", "electric bass");
  }

  @Test
  void aNumberIsNeverSplit() throws IOException {
    StringBuilder book = new StringBuilder();
    StringBuilder said = new StringBuilder();
    for (int i = 1; i <= 20; i++) {
      book.append("#").append(i).append("'Song ").append(i).append("' 4/4 m40 ");
      said.append("No. ").append(i).append(": cut 3 to 6; vamp 9 to 10; hold in 20\n");
    }
    BarMap map = BookNotation.read(book.toString()).map();
    byte[] pdf =
        pdf(map, Changes.said(map, said.toString()), SheetKind.SUBSTITUTE, SheetSettings.USUAL);
    keep(pdf, "substitute-twenty.pdf");
    List<String> sides = sides(pdf);
    for (int i = 1; i <= 20; i++) {
      String start = i + " Song " + i + " ";
      String side = sides.stream().filter(s -> s.contains(start)).findFirst().orElseThrow();
      String from = side.substring(side.indexOf(start));
      String own = i < 20 ? from.split((i + 1) + " Song ")[0] : from;
      assertThat(own).contains("CUT from bar 3", "VAMP 9-10", "HOLD");
    }
    assertThat(sides.size()).isLessThanOrEqualTo(4);
  }

  @Test
  void theDemoBookFitsOnAFewSides() throws IOException {
    BarMap map = BarMapJson.read(HOME.resolve("corpus/saltmarsh/saltmarsh.barmap.json"));
    byte[] pdf = pdf(map, ShowChanges.none(), SheetKind.SUBSTITUTE, SheetSettings.USUAL);
    keep(pdf, "substitute-demo.pdf");
    List<String> sides = sides(pdf);
    assertThat(sides).hasSizeBetween(1, 2);
    String all = String.join(" ", sides);
    for (String title : List.of("Flood Tide", "The Wading Song TACET", "Spring Tide")) {
      assertThat(all).contains(title);
    }
    assertThat(all).contains("Page 3 to 4").contains("after 29 bars rest");
  }

  @Test
  void misprintsAreListedInTheOrderOfTheBook() throws IOException {
    BarMap map = BookNotation.read(BOOK).map();
    byte[] pdf = pdf(map, Changes.said(map, SAID), SheetKind.ERRATA, SheetSettings.USUAL);
    keep(pdf, "errata.pdf");
    String text = String.join(" ", sides(pdf));
    assertThat(text)
        .containsSubsequence(
            "2 misprints",
            "1 Overture",
            "Bar 30",
            "page 1, line 1",
            "wrong note",
            "2 Tide Song",
            "Bar 12",
            "page 2, line 1",
            "bar 12 should be B flat",
            "hire agreement")
        .doesNotContain("Molly");
  }

  @Test
  void withoutMisprintsThereIsNothingToSend() throws IOException {
    BarMap map = BookNotation.read("#1 4/4 m8").map();
    byte[] pdf = pdf(map, ShowChanges.none(), SheetKind.ERRATA, SheetSettings.USUAL);
    assertThat(String.join(" ", sides(pdf))).contains("No misprint has been noted");
  }
}
