package org.barmap.sheet;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.apache.pdfbox.text.TextPosition;
import org.barmap.plan.KeptNote;
import org.barmap.plan.LookAhead;
import org.barmap.plan.NumberPlan;
import org.barmap.plan.RunSheet;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.term.Link;
import org.barmap.plan.mark.PencilMark;
import org.barmap.plan.rest.LongRest;
import org.barmap.plan.turn.Advice;
import org.barmap.plan.turn.Turn;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * Every sheet of the demo book and of a book of twenty numbers, read back from the PDF: nothing
 * runs over its margin or into other words, nothing the plan says is left out. The files stay below
 * {@code target/sheets} to be looked at.
 */
class EverySheetTest {
  private static final Path KEPT = Path.of("target", "sheets");

  /** Half an inch is what any printer can print; the foot stands below the text. */
  private static final float LEAST_MARGIN = 36;

  private static final float FOOT = 60;

  /** Letters that touch are no overlap: points. */
  private static final float TOUCH = 1;

  private enum Show {
    DEMO,
    TWENTY;

    SheetBooks book() throws IOException {
      return this == DEMO ? SheetBooks.demo() : SheetBooks.twenty();
    }
  }

  /** The text of one sheet. */
  private record Read(List<List<TextPosition>> pages) {
    static Read of(byte[] pdf) throws IOException {
      List<List<TextPosition>> pages = new ArrayList<>();
      try (PDDocument document = Loader.loadPDF(pdf)) {
        for (int i = 1; i <= document.getNumberOfPages(); i++) {
          List<TextPosition> glyphs = new ArrayList<>();
          PDFTextStripper stripper =
              new PDFTextStripper() {
                @Override
                protected void writeString(String string, List<TextPosition> positions) {
                  glyphs.addAll(positions);
                }
              };
          stripper.setSuppressDuplicateOverlappingText(false);
          stripper.setStartPage(i);
          stripper.setEndPage(i);
          stripper.getText(document);
          pages.add(glyphs);
        }
      }
      return new Read(pages);
    }

    /** Its words without the foot of the pages and without blanks. */
    String body() {
      StringBuilder text = new StringBuilder();
      for (List<TextPosition> page : pages) {
        for (TextPosition glyph : page) {
          if (glyph.getPageHeight() - glyph.getYDirAdj() > FOOT) {
            text.append(glyph.getUnicode());
          }
        }
      }
      return bare(text.toString());
    }
  }

  private static String bare(String text) {
    return text.replaceAll("\\s+", "");
  }

  /** What a text looks like on a sheet, without blanks. */
  private static String printed(String text) throws IOException {
    try (PDDocument document = new PDDocument()) {
      return bare(new Typeface(document).shown(text));
    }
  }

  private static byte[] pdf(
      SheetBooks book, SheetKind kind, SheetSettings settings, List<PencilMark> written)
      throws IOException {
    return Sheets.pdf(
        book.map(), book.changes(), book.plan(), List.of(kind), settings, Pieces.none(), written);
  }

  private static Map<String, Read> sheets(Show show, SheetSettings settings) throws IOException {
    SheetBooks book = show.book();
    Map<String, Read> sheets = new LinkedHashMap<>();
    for (SheetKind kind : SheetKind.values()) {
      List<PencilMark> written = kind == SheetKind.ERASE ? book.plan().pencil() : List.of();
      byte[] pdf = pdf(book, kind, settings, written);
      Files.createDirectories(KEPT);
      String big = settings.bigType() ? "-big" : "";
      Files.write(
          KEPT.resolve(show.name().toLowerCase(Locale.ROOT) + "-" + kind.word() + big + ".pdf"),
          pdf);
      sheets.put(kind.word(), Read.of(pdf));
    }
    return sheets;
  }

  @ParameterizedTest
  @EnumSource
  void nothingRunsOverItsMarginOrIntoOtherWords(Show show) throws IOException {
    for (SheetSettings settings :
        List.of(SheetSettings.USUAL, new SheetSettings(SheetSettings.Paper.LETTER, true))) {
      for (Map.Entry<String, Read> sheet : sheets(show, settings).entrySet()) {
        for (List<TextPosition> page : sheet.getValue().pages()) {
          assertThat(page).as(sheet.getKey()).isNotEmpty();
          assertThat(page.stream().filter(g -> !insideMargins(g)).map(EverySheetTest::where))
              .as(sheet.getKey())
              .isEmpty();
          assertThat(overlaps(page)).as(sheet.getKey()).isEmpty();
        }
      }
    }
  }

  private static boolean insideMargins(TextPosition glyph) {
    float right = glyph.getXDirAdj() + glyph.getWidthDirAdj();
    return glyph.getXDirAdj() > LEAST_MARGIN
        && right < glyph.getPageWidth() - LEAST_MARGIN
        && glyph.getYDirAdj() - glyph.getHeightDir() > LEAST_MARGIN
        && glyph.getYDirAdj() < glyph.getPageHeight() - LEAST_MARGIN / 2;
  }

  private static String where(TextPosition glyph) {
    return glyph.getUnicode() + " at " + glyph.getXDirAdj() + ", " + glyph.getYDirAdj();
  }

  private static List<String> overlaps(List<TextPosition> page) {
    List<TextPosition> glyphs = page.stream().filter(g -> !g.getUnicode().isBlank()).toList();
    List<String> found = new ArrayList<>();
    for (int i = 0; i < glyphs.size(); i++) {
      for (int k = i + 1; k < glyphs.size(); k++) {
        if (overlap(glyphs.get(i), glyphs.get(k))) {
          found.add(where(glyphs.get(i)) + " and " + where(glyphs.get(k)));
        }
      }
    }
    return found;
  }

  private static boolean overlap(TextPosition a, TextPosition b) {
    float wide =
        Math.min(a.getXDirAdj() + a.getWidthDirAdj(), b.getXDirAdj() + b.getWidthDirAdj())
            - Math.max(a.getXDirAdj(), b.getXDirAdj());
    float high =
        Math.min(a.getYDirAdj(), b.getYDirAdj())
            - Math.max(a.getYDirAdj() - a.getHeightDir(), b.getYDirAdj() - b.getHeightDir());
    return wide > TOUCH && high > TOUCH;
  }

  @ParameterizedTest
  @EnumSource
  void everythingThePlanSaysIsOnPaper(Show show) throws IOException {
    SheetBooks book = show.book();
    Map<String, Read> sheets = sheets(show, SheetSettings.USUAL);
    String changes = body(sheets, SheetKind.CHANGES);
    for (PlanFinding finding : book.plan().findings()) {
      assertThat(changes).contains(printed(finding.text()));
    }
    String pencil = body(sheets, SheetKind.PENCIL);
    for (PencilMark mark : book.plan().pencil()) {
      assertThat(pencil).contains(printed(mark.where() + ":  " + mark.sign()));
    }
    String erase = body(sheets, SheetKind.ERASE);
    String stand = body(sheets, SheetKind.STAND);
    for (PencilMark mark : book.plan().pencil()) {
      assertThat(erase).contains(printed(mark.where() + ":  " + mark.sign()));
      assertThat(stand).contains(printed(mark.where() + ":  " + mark.sign()));
    }
    for (LookAhead ahead : book.plan().lookAhead()) {
      if (!ahead.kind().equals("page-start") && !ahead.kind().equals("entrance")) {
        assertThat(stand).contains(printed(ahead.text()));
      }
    }
    String turns = body(sheets, SheetKind.TURNS);
    for (Turn turn : book.plan().turns()) {
      for (Advice advice : turn.advice().subList(0, 1)) {
        assertThat(turns).contains(printed(advice.says()));
        assertThat(stand).contains(printed(advice.says()));
      }
    }
    String rests = body(sheets, SheetKind.RESTS);
    for (LongRest rest : book.plan().rests()) {
      assertThat(rests).contains(printed(rest.text()));
      assertThat(stand).contains(printed(rest.text()));
    }
    String run = body(sheets, SheetKind.RUN_SHEET);
    for (KeptNote note : book.plan().notes()) {
      assertThat(run).contains(printed(note.text()));
    }
    List<RunSheet> lines = book.plan().runSheet();
    long unsaid =
        lines.subList(0, lines.size() - 1).stream()
            .filter(l -> l.link() == Link.UNKNOWN && l.state() != NumberPlan.State.CUT)
            .count();
    assertThat(run.split("Tothenextnumber:notsaid", -1)).hasSize((int) unsaid + 1);
  }

  private static String body(Map<String, Read> sheets, SheetKind kind) {
    return Optional.ofNullable(sheets.get(kind.word())).orElseThrow().body();
  }

  /** A player looks under the number on the stand. */
  @Test
  void theChangesStandByNumberInTheOrderOfTheNight() throws IOException {
    String sheet = body(sheets(Show.TWENTY, SheetSettings.USUAL), SheetKind.CHANGES);
    SheetBooks book = SheetBooks.twenty();
    List<Integer> heads =
        book.plan().numbers().stream()
            .filter(
                n -> book.changes().changes().stream().anyMatch(c -> c.number().equals(n.label())))
            .map(n -> sheet.indexOf("No." + n.label() + bare(n.title())))
            .toList();
    assertThat(heads).hasSizeGreaterThan(5).doesNotContain(-1).isSorted();
  }

  @Test
  void aStandSheetIsOneNumberWithItsDate() throws IOException {
    SheetBooks book = SheetBooks.demo();
    SheetSettings two =
        SheetSettings.USUAL.with(LocalDateTime.of(2026, 11, 28, 20, 15), Optional.of("2"));
    Read sheet =
        Read.of(Sheets.pdf(book.map(), book.changes(), book.plan(), List.of(SheetKind.STAND), two));
    assertThat(sheet.body())
        .contains("AsofSat28Nov2026,20:15")
        .contains(bare("The pickup: Bow away"))
        .contains(bare("Vamp 10-11 till the cart stops, out at the end of a pass"))
        .contains(bare("Cut: from bar 84 straight to bar 95 (dance got shorter)"))
        .contains(bare("Page 3 to 4 after bar 99: no time."))
        .doesNotContain(bare("watch at 112"));
  }

  /** Paper is for what is played: a number the player waits in stands under the one before. */
  @Test
  void aTacetNumberTakesNoSideOfItsOwn() throws IOException {
    Read all =
        Objects.requireNonNull(sheets(Show.DEMO, SheetSettings.USUAL).get(SheetKind.STAND.word()));
    assertThat(all.pages()).hasSize(7);
    assertThat(all.body()).contains(bare("3 The Wading Song TACET"));
  }

  /** What was never written isn't rubbed out, and what was written stays until it is. */
  @Test
  void marksToWriteAndMarksToEraseAreTwoLists() throws IOException {
    SheetBooks book = SheetBooks.demo();
    PencilMark gone =
        new PencilMark(1, 2, "x", "cut", "[ old", "1", "5", Optional.empty(), List.of());
    List<PencilMark> written = List.of(gone, book.plan().pencil().get(0));
    Map<SheetKind, String> bodies = new LinkedHashMap<>();
    for (SheetKind kind : List.of(SheetKind.PENCIL, SheetKind.ERASE)) {
      byte[] pdf = pdf(book, kind, SheetSettings.USUAL, written);
      bodies.put(kind, Read.of(pdf).body());
    }
    assertThat(bodies.get(SheetKind.PENCIL))
        .contains(bare("18 marks, 1 of them in the book already."))
        .doesNotContain(bare("[ old"));
    assertThat(bodies.get(SheetKind.ERASE))
        .contains(bare("2 marks, written for this show"))
        .contains(bare("bar 5: [ old"))
        .doesNotContain(bare(book.plan().pencil().get(1).sign()));
  }

  /**
   * What stands in the book anyway is not written (common practice: the fewest marks, all that are
   * needed). Checked by hand against the pages: each mark is needed and none is missing.
   */
  @Test
  void theDemoBookNeedsEighteenMarks() throws IOException {
    assertThat(SheetBooks.demo().plan().pencil())
        .extracting(m -> m.number() + " " + m.where() + " " + m.mark())
        .containsExactly(
            "1 37 tempo",
            "1 72 Time",
            "1 92 cut",
            "1 102 land",
            "1 112 watch",
            "2 11 cue",
            "2 85 cut",
            "2 95 land",
            "2 99 fold-out",
            "4 1 tempo",
            "4 31 watch",
            "5 25 cut",
            "5 30 land",
            "6 52 cut",
            "6 64 land",
            "7 9 turn-early",
            "7 46 insert",
            "8 18 cue");
  }

  @Test
  void theMadeBookIsAWholeShow() throws IOException {
    SheetBooks twenty = SheetBooks.twenty();
    assertThat(twenty.map().numbers()).hasSizeGreaterThanOrEqualTo(20);
    assertThat(twenty.plan().findings()).anySatisfy(f -> assertThat(f.question()).isPresent());
    assertThat(Arrays.asList(SheetKind.values()))
        .hasSameSizeAs(sheets(Show.TWENTY, SheetSettings.USUAL).keySet());
  }
}
