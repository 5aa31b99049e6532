package org.barmap.sheet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import javax.imageio.ImageIO;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.text.PDFTextStripper;
import org.apache.pdfbox.text.TextPosition;
import org.barmap.exchange.chair.TheirBars;
import org.barmap.exchange.chair.TwoParts;
import org.barmap.map.BarMap;
import org.barmap.map.Book;
import org.barmap.map.MusicalNumber;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.Books;
import org.barmap.plan.Changes;
import org.barmap.plan.Plan;
import org.barmap.plan.PlanSettings;
import org.barmap.plan.Planner;
import org.barmap.plan.change.ShowChanges;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** Sheets are read back from the PDF: their words, sizes and margins. */
class SheetsTest {

  private static final String BOOK =
      "%1 1@p1@w:\u2669_=_120@mr8 9@mA 10 11@mr4 15@mB@se2 |:16@p2@s1 17 18@2/4 19:|@4/4 20@mr12"
          + " 32@p3@mC 33@w:To_Electric_Bass@mr6 39@mD@w:(Vamp) 40@w:Segue_as_one"
          + " %2 201@p4@mE@6/8@w:\u2669._=_90 "
          + "202 203 204@p5 205 206@p6 207@segno 208@mr3 211@p7 212@ds"
          + " %3 301@p8 302@mr20 322 %4 401@p9 402 %5 501@p9@s2@mr4 505@w:arco 506@rest 507@w:pizz.";

  private static final String SAID =
      "No. 1: cut 21 to 28, watch at 32, play 16 to 19 three times\n"
          + "No. 2: in six from 4 to 6; tempo dotted quarter = 80 at 1; cut 3 to 4\nNo. 4 is cut\n"
          + "No. 3: insert 2 bars after 1 called 1A; electric bass at 22\nNo. 5: safety 4 to 5";

  private static BarMap book(String title) {
    BarMap map = Books.book(BOOK);
    List<MusicalNumber> numbers = new ArrayList<>();
    String[] titles = {"Low Tide", title, "The Ferry Is Late", "Gulls", "Lanterns (reprise)"};
    for (int i = 0; i < map.numbers().size(); i++) {
      MusicalNumber n = map.numbers().get(i);
      numbers.add(new MusicalNumber(n.label(), titles[i], n.firstBar(), n.lastBar(), i == 4));
    }
    return BarMap.of(new Book("Saltmarsh", "Double Bass"), map.pages(), numbers, map.bars());
  }

  private static byte[] pdf(BarMap map, List<SheetKind> kinds, SheetSettings settings) {
    ShowChanges changes = Changes.said(map, SAID);
    Plan plan = Planner.plan(map, changes, PlanSettings.USUAL);
    return Sheets.pdf(map, changes, plan, kinds, settings);
  }

  @ParameterizedTest
  @EnumSource
  void everySheetSaysWhatItIsFor(SheetKind kind) throws IOException {
    String text = text(pdf(book("Marsh Lights"), List.of(kind), SheetSettings.USUAL));
    text = text.replaceAll("\\s+", " ");
    assertThat(text).contains(kind.title()).contains("Saltmarsh, Double Bass");
    assertThat(text)
        .contains(
            switch (kind) {
              case RUN_SHEET -> "SEGUE AS ONE";
              case TURNS -> "hire agreement";
              case RESTS -> "bars rest";
              case CHANGES -> "cut 21 to 28";
              case PENCIL -> "when the mark is written";
              case ERASE -> "there is none to erase";
              case STAND -> "On the way";
              case STRIPS -> "ask the hirer";
              case SUBSTITUTE -> "tonight";
              case ERRATA -> "No misprint has been noted";
            });
  }

  @ParameterizedTest
  @EnumSource
  void nothingIsSmallAndNothingRunsOffThePaper(SheetSettings.Paper paper) throws IOException {
    for (boolean big : new boolean[] {false, true}) {
      byte[] pdf =
          pdf(
              book("Marsh Lights"),
              Arrays.asList(SheetKind.values()),
              new SheetSettings(paper, big));
      float width = paper.size().getWidth();
      float smallest = Float.MAX_VALUE;
      float leftmost = Float.MAX_VALUE;
      float rightmost = 0;
      for (TextPosition glyph : glyphs(pdf)) {
        smallest = Math.min(smallest, glyph.getFontSizeInPt());
        leftmost = Math.min(leftmost, glyph.getXDirAdj());
        rightmost = Math.max(rightmost, glyph.getXDirAdj() + glyph.getWidthDirAdj());
      }
      assertThat(smallest).isGreaterThanOrEqualTo(12);
      assertThat(leftmost).isGreaterThan(30);
      assertThat(rightmost).isLessThan(width - 30);
      try (PDDocument document = Loader.loadPDF(pdf)) {
        assertThat(document.getPage(0).getMediaBox().getWidth()).isEqualTo(width);
      }
    }
  }

  @Test
  void whateverATitleHoldsIsPrintedOrReplaced() throws IOException {
    String odd =
        "\u017Dlu\u0165ou\u010Dk\u00FD <b>k\u016F\u0148</b> \uD83C\uDFBB \u202Eab"
            + "x".repeat(300);
    String text = text(pdf(book(odd), Arrays.asList(SheetKind.values()), SheetSettings.USUAL));
    assertThat(text).contains("\u017Dlu\u0165ou\u010Dk\u00FD <b>k\u016F\u0148</b> ?");
    assertThat(text).doesNotContain("\u202E");
  }

  @Test
  void anEmptyBookHasSheetsToo() throws IOException {
    BarMap map = BarMap.of(new Book("Saltmarsh", "Double Bass"), List.of(), List.of(), List.of());
    Plan plan = Planner.plan(map, ShowChanges.none(), PlanSettings.USUAL);
    List<SheetKind> all = Arrays.asList(SheetKind.values());
    byte[] pdf = Sheets.pdf(map, ShowChanges.none(), plan, all, SheetSettings.USUAL);
    assertThat(text(pdf)).contains("There is no page to turn.").contains("as printed");
    assertThatThrownBy(
            () -> Sheets.pdf(map, ShowChanges.none(), plan, List.of(), SheetSettings.USUAL))
        .isInstanceOf(IllegalArgumentException.class);
  }

  @Test
  void aTurnSlipShowsThePieceOfThePageWithItsCaution() throws IOException {
    BarMap map = book("Marsh Lights");
    Plan plan = Planner.plan(map, ShowChanges.none(), PlanSettings.USUAL);
    List<String> asked = new ArrayList<>();
    Pieces pieces =
        bar -> {
          asked.add(bar.id());
          return Optional.of(jpeg());
        };
    byte[] with =
        Sheets.pdf(
            map,
            ShowChanges.none(),
            plan,
            List.of(SheetKind.TURNS),
            SheetSettings.USUAL,
            pieces,
            List.of());
    assertThat(asked).isEqualTo(plan.turns().stream().map(t -> t.arrives()).toList());
    String said = text(with).replaceAll("\\s+", " ");
    assertThat(said.split("First after the turn: bar")).hasSize(asked.size() + 1);
    assertThat(said).contains("is a copy, also for your own turn: the hire agreement decides");
    assertThat(pictures(with)).isEqualTo(asked.size());
    byte[] without = pdf(map, List.of(SheetKind.TURNS), SheetSettings.USUAL);
    assertThat(text(without)).doesNotContain("First after the turn");
    assertThat(pictures(without)).isZero();
  }

  private static byte[] jpeg() {
    try {
      ByteArrayOutputStream out = new ByteArrayOutputStream();
      ImageIO.write(new BufferedImage(900, 120, BufferedImage.TYPE_BYTE_GRAY), "jpeg", out);
      return out.toByteArray();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static int pictures(byte[] pdf) throws IOException {
    int pictures = 0;
    try (PDDocument document = Loader.loadPDF(pdf)) {
      for (PDPage page : document.getPages()) {
        for (COSName name : page.getResources().getXObjectNames()) {
          pictures += page.getResources().isImageXObject(name) ? 1 : 0;
        }
      }
    }
    return pictures;
  }

  @Test
  void aSheetCanBeKept(@TempDir Path folder) throws IOException {
    Path file = folder.resolve("sheets.pdf");
    byte[] pdf = pdf(book("Marsh Lights"), Arrays.asList(SheetKind.values()), SheetSettings.USUAL);
    Files.write(file, pdf);
    assertThat(Files.size(file)).isLessThan(200_000);
    String keep = System.getProperty("barmap.keep.sheets", "");
    if (!keep.isEmpty()) {
      Files.write(Path.of(keep, "sheets.pdf"), pdf);
      SheetSettings big = new SheetSettings(SheetSettings.Paper.LETTER, true);
      Files.write(
          Path.of(keep, "big.pdf"),
          pdf(book("Marsh Lights"), Arrays.asList(SheetKind.values()), big));
    }
  }

  @Test
  void theOtherPartsBarsStandUnderAChange() throws IOException {
    BarMap map = book("Marsh Lights");
    ShowChanges changes = Changes.said(map, SAID);
    String id = changes.changes().get(0).meta().id();
    SheetSettings settings =
        SheetSettings.USUAL.beside(Map.of(id, "Director: 142 to 157"), Optional.empty());
    assertThat(text(pdf(map, List.of(SheetKind.CHANGES), settings)))
        .containsOnlyOnce("Director: 142 to 157");
  }

  /** The director's book counts 100 bars more; every sheet that names bars says both. */
  @ParameterizedTest
  @EnumSource(names = {"RUN_SHEET", "TURNS", "RESTS", "STAND"})
  void theOtherPartsBarsStandBesideThisOnes(SheetKind kind) throws IOException {
    BarMap map = book("Marsh Lights");
    BarMap other =
        map.withBars(
            map.bars().stream().map(b -> b.toBuilder().number(b.number() + 100).build()).toList());
    SheetSettings both =
        SheetSettings.USUAL.beside(
            Map.of(), Optional.of(new TheirBars(TwoParts.of(map, other, List.of()), "Director")));
    assertThat(text(pdf(map, List.of(kind), both))).containsPattern("Director 1\\d\\d");
    assertThat(text(pdf(map, List.of(kind), SheetSettings.USUAL))).doesNotContain("Director");
  }

  /** Of the demo book, whose first page ends with the rest before bar 89 of No. 1. */
  @Test
  void aTurnInsideAVampIsMadeEachTimeRound() throws IOException {
    BarMap map = BarMapJson.read(Path.of("..", "corpus", "saltmarsh", "saltmarsh.barmap.json"));
    ShowChanges vamp = Changes.said(map, "No. 1: vamp 60 to 90 till the bell");
    Plan plan = Planner.plan(map, vamp, PlanSettings.USUAL);
    String text =
        text(Sheets.pdf(map, vamp, plan, List.of(SheetKind.TURNS), SheetSettings.USUAL))
            .replaceAll("\\s+", " ");
    assertThat(text)
        .contains("Turn each time round the vamp 60-90.")
        .contains("Turn back each time round the vamp 60-90.");
  }

  private static String text(byte[] pdf) throws IOException {
    try (PDDocument document = Loader.loadPDF(pdf)) {
      return new PDFTextStripper().getText(document);
    }
  }

  private static List<TextPosition> glyphs(byte[] pdf) throws IOException {
    List<TextPosition> glyphs = new ArrayList<>();
    try (PDDocument document = Loader.loadPDF(pdf)) {
      new PDFTextStripper() {
        @Override
        protected void writeString(String string, List<TextPosition> positions) {
          glyphs.addAll(positions);
        }
      }.getText(document);
    }
    assertThat(glyphs).isNotEmpty();
    return glyphs;
  }
}
