package org.barmap.sheet;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.rendering.ImageType;
import org.apache.pdfbox.rendering.PDFRenderer;
import org.apache.pdfbox.text.PDFTextStripper;
import org.barmap.map.BarMap;
import org.barmap.plan.Changes;
import org.barmap.plan.Plan;
import org.barmap.plan.PlanSettings;
import org.barmap.plan.Planner;
import org.barmap.plan.cases.BookNotation;
import org.barmap.plan.change.ShowChanges;
import org.junit.jupiter.api.Test;

/** Strips of added bars, looked at as they would come out of the printer. */
class StripPagesTest {
  private static final int DPI = 300;
  private static final double MILLIMETRE = DPI / 25.4;

  private static byte[] strips(String book, String said) {
    BarMap map = BookNotation.read(book).map();
    ShowChanges changes = Changes.said(map, said);
    Plan plan = Planner.plan(map, changes, PlanSettings.USUAL);
    return Sheets.pdf(map, changes, plan, List.of(SheetKind.STRIPS), SheetSettings.USUAL);
  }

  private static String text(byte[] pdf) throws IOException {
    try (PDDocument document = Loader.loadPDF(pdf)) {
      return new PDFTextStripper().getText(document).replaceAll("\\s+", " ");
    }
  }

  @Test
  void eachStripHasItsPlaceItsNamesItsMeterAndTheCaution() throws IOException {
    String text =
        text(
            strips(
                "#7'Low Tide' 4/4 m30",
                "No. 7: insert 2 bars of 3/4 after 24 called 24A, add 4 bars rest after 12"));
    assertThat(text)
        .contains("No. 7 Low Tide: 2 bars of 3/4, 24A", "24A 24B", "3 4")
        .contains("4 bars rest, after 12")
        .contains("hire agreement", "ask the hirer");
  }

  @Test
  void barsThatArePlayedTwiceHaveOneStrip() throws IOException {
    String text = text(strips("#1 4/4 |: m4 :| m4", "No. 1: insert 1 bar after 2 called 2A"));
    assertThat(text.split("No\\. 1", -1)).hasSize(2);
  }

  @Test
  void withoutAddedBarsThereIsNothingToCut() throws IOException {
    assertThat(text(strips("#1 4/4 m8", "No. 1: cut 2 to 3"))).contains("No bars are added");
  }

  /** Staves of parts are 7 mm high at the least: MOLA guidelines, known second-hand. */
  @Test
  void theStaffIsAsHighAsInAPart() throws IOException {
    byte[] pdf = strips("#1 4/4 m8", "No. 1: insert 1 bar of music after 4");
    List<Integer> lines = new ArrayList<>();
    try (PDDocument document = Loader.loadPDF(pdf)) {
      BufferedImage page = new PDFRenderer(document).renderImageWithDPI(0, DPI, ImageType.GRAY);
      int x = (int) (50 / 72.0 * DPI);
      int many = (int) (30 * MILLIMETRE);
      for (int y = page.getHeight() / 8; y < page.getHeight() - page.getHeight() / 8; y++) {
        if (black(page, x, y, many) && (lines.isEmpty() || y - lines.get(lines.size() - 1) > 3)) {
          lines.add(y);
        }
      }
    }
    assertThat(lines).hasSize(5);
    double high = (lines.get(4) - lines.get(0)) / MILLIMETRE;
    assertThat(high).isBetween(6.9, 10.1);
  }

  private static boolean black(BufferedImage page, int x, int y, int many) {
    int dark = 0;
    for (int i = 0; i < many; i++) {
      dark += page.getRaster().getSample(x + i, y, 0) < 160 ? 1 : 0;
    }
    return dark > many * 0.9;
  }
}
