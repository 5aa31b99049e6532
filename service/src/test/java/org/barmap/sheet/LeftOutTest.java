package org.barmap.sheet;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.List;
import java.util.Set;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** What may hold tonight and isn't in a sheet, as nobody has said which show it is. */
class LeftOutTest {
  private static final String MATINEE =
      "\"No. 9, cut 21 to 24\" holds in the version \"matinee\" only, and nobody has said which"
          + " version is planned";
  private static final Set<SheetKind> SAME_IN_EVERY_SHOW =
      Set.of(SheetKind.ERASE, SheetKind.ERRATA);

  /** On each sheet once; the sheet of the changes says it beside the change. */
  @ParameterizedTest
  @EnumSource
  void standsOnEverySheetThatIsOtherForIt(SheetKind kind) throws IOException {
    int times =
        text(SheetBooks.twenty(), kind).split(java.util.regex.Pattern.quote(MATINEE), -1).length
            - 1;
    assertThat(times).isEqualTo(SAME_IN_EVERY_SHOW.contains(kind) ? 0 : 1);
  }

  /** A mark where a rest begins says nothing of how far one has counted. */
  @Test
  void nothingIsCountedBeforeARestBegins() throws IOException {
    assertThat(text(SheetBooks.demo(), SheetKind.SUBSTITUTE)).doesNotContain(" after 0");
    assertThat(text(SheetBooks.demo(), SheetKind.RESTS)).doesNotContain(" after 0");
  }

  private static String text(SheetBooks book, SheetKind kind) throws IOException {
    byte[] pdf =
        Sheets.pdf(book.map(), book.changes(), book.plan(), List.of(kind), SheetSettings.USUAL);
    try (PDDocument document = Loader.loadPDF(pdf)) {
      return new PDFTextStripper().getText(document).replaceAll("\\s+", " ");
    }
  }
}
