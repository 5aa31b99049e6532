package org.barmap.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.io.InputStream;
import java.lang.management.ManagementFactory;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.OptionalDouble;
import java.util.concurrent.TimeUnit;
import javax.management.JMException;
import javax.management.ObjectName;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.graphics.image.LosslessFactory;
import org.apache.pdfbox.pdmodel.graphics.image.PDImageXObject;
import org.apache.pdfbox.rendering.PDFRenderer;
import org.barmap.page.file.PdfPages;
import org.barmap.page.file.PdfScan;
import org.barmap.page.pixel.OpenCv;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.opencv.core.Mat;

/** Books of scans in one PDF: what stays in memory, and what is loaded before the first page. */
class PdfMemoryTest {

  private static final int WIDE = 1654;
  private static final int HIGH = 2339;

  @TempDir Path dir;

  @BeforeAll
  static void natives() {
    OpenCv.load();
  }

  @Test
  void picturesOfPagesReadAreNotKept() throws Exception {
    int pages = 6;
    Path file = scans(pages);
    try (PdfPages pdf = PdfPages.open(file)) {
      pdf.page(0).release();
      long before = livePictures();
      for (int i = 1; i < pages; i++) {
        pdf.page(i).release();
      }
      assertThat(livePictures()).isEqualTo(before);
    }
  }

  /** What would be counted if they were kept: PDFBox holds them softly unless it is told not to. */
  @Test
  void picturesThatAreKeptAreCounted() throws Exception {
    int pages = 6;
    try (PDDocument document = Loader.loadPDF(scans(pages).toFile())) {
      PDFRenderer renderer = new PDFRenderer(document);
      renderer.renderImage(0);
      long before = livePictures();
      for (int i = 1; i < pages; i++) {
        renderer.renderImage(i);
      }
      assertThat(livePictures()).isGreaterThanOrEqualTo(before + pages - 1);
    }
  }

  @Test
  void aPageIsDrawnAgainAfterItsPictureWasDropped() throws Exception {
    try (PdfPages pdf = PdfPages.open(scans(2))) {
      Mat first = pdf.page(0);
      Mat again = pdf.page(0);
      Mat other = pdf.page(1);
      assertThat(first.cols()).isBetween(WIDE - 1, WIDE + 1);
      assertThat(org.opencv.core.Core.norm(first, again)).isZero();
      assertThat(org.opencv.core.Core.norm(first, other)).isPositive();
      first.release();
      again.release();
      other.release();
    }
  }

  /** In a process of its own, since here other tests have loaded the natives. */
  @Test
  void theFirstThingAProcessReadsMayBeAPdf() throws Exception {
    Path file = scans(1);
    Process process =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Djava.awt.headless=true",
                "-XX:TieredStopAtLevel=1",
                "-cp",
                System.getProperty("java.class.path"),
                FirstPage.class.getName(),
                file.toString())
            .redirectErrorStream(true)
            .start();
    String said;
    try (InputStream out = process.getInputStream()) {
      said = new String(out.readAllBytes(), StandardCharsets.UTF_8);
    }
    assertThat(process.waitFor(60, TimeUnit.SECONDS)).isTrue();
    assertThat(process.exitValue()).as(said).isZero();
  }

  /** Ends with 0 when the first page of a file can be loaded before anything else is. */
  static final class FirstPage {
    private FirstPage() {}

    public static void main(String[] args) {
      try (PageSource source = new PageSource(List.of(Path.of(args[0])))) {
        System.exit(source.next() instanceof PageResult.Loaded ? 0 : 1);
      }
    }
  }

  @Test
  void onlyAPageOfOnePictureThatFillsItIsAScan() throws Exception {
    try (PDDocument document = new PDDocument()) {
      PDImageXObject picture = LosslessFactory.createFromImage(document, picture(1));
      PDImageXObject next = LosslessFactory.createFromImage(document, picture(2));
      // 1654 pixels over 595.28 points: 200.06 dots an inch.
      assertThat(PdfScan.of(page(document, picture)).dpi().orElse(0)).isBetween(199.5, 200.5);
      assertThat(PdfScan.of(page(document, picture, next)).dpi()).isEqualTo(OptionalDouble.empty());
      PDImageXObject strip =
          LosslessFactory.createFromImage(document, picture(1).getSubimage(0, 0, WIDE, HIGH / 3));
      assertThat(PdfScan.of(page(document, strip)).dpi()).isEqualTo(OptionalDouble.empty());
      assertThat(PdfScan.of(new PDPage(PDRectangle.A4)).dpi()).isEqualTo(OptionalDouble.empty());
    }
  }

  /**
   * Returns how many decoded pictures can be reached after a full collection, softly held ones
   * among them: memory is not short, so the collector keeps those.
   */
  private static long livePictures() throws JMException {
    Object histogram =
        ManagementFactory.getPlatformMBeanServer()
            .invoke(
                new ObjectName("com.sun.management:type=DiagnosticCommand"),
                "gcClassHistogram",
                new Object[] {new String[0]},
                new String[] {String[].class.getName()});
    String name = BufferedImage.class.getName();
    return String.valueOf(histogram)
        .lines()
        .map(line -> line.strip().split(" +"))
        .filter(column -> column.length > 3 && column[3].equals(name))
        .mapToLong(column -> Long.parseLong(column[1]))
        .sum();
  }

  private Path scans(int pages) throws IOException {
    Path file = dir.resolve("scans.pdf");
    try (PDDocument document = new PDDocument()) {
      for (int i = 0; i < pages; i++) {
        page(document, LosslessFactory.createFromImage(document, picture(i)));
      }
      document.save(file.toFile());
    }
    return file;
  }

  private static PDPage page(PDDocument document, PDImageXObject... pictures) throws IOException {
    PDPage page = new PDPage(PDRectangle.A4);
    document.addPage(page);
    try (PDPageContentStream content = new PDPageContentStream(document, page)) {
      for (PDImageXObject picture : pictures) {
        content.drawImage(
            picture, 0, 0, page.getCropBox().getWidth(), page.getCropBox().getHeight());
      }
    }
    return page;
  }

  /** White with a black block, elsewhere on each page. */
  private static BufferedImage picture(int number) {
    return PagePainter.drawn(WIDE, HIGH, g -> g.fillRect(100 + 20 * number, 200, 400, 60));
  }
}
