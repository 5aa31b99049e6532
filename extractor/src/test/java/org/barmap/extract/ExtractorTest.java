package org.barmap.extract;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import javax.imageio.ImageIO;
import org.barmap.map.Finding;
import org.barmap.map.Page;
import org.barmap.map.json.BarMapJson;
import org.barmap.page.pixel.Mats;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;

/** Runs on pages of the demo book, our own invention. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class ExtractorTest {
  private static final Path BOOK =
      Path.of(System.getProperty("barmap.home", ".."), "corpus", "saltmarsh");
  private final Extractor extractor = Extractor.open();

  @AfterAll
  void close() {
    extractor.close();
  }

  @AfterEach
  void nothingNativeIsLeftOpen() {
    assertThat(Mats.live()).isZero();
  }

  @Test
  void badFilesCostOnlyThemselves(@TempDir Path folder) throws IOException {
    Path empty = Files.write(folder.resolve("a-empty.png"), new byte[0]);
    Path text = Files.writeString(folder.resolve("b-text.png"), "no picture");
    Path good = Files.copy(BOOK.resolve("page-01.png"), folder.resolve("c-good.png"));
    List<String> seen = new ArrayList<>();
    Extraction read =
        extractor.read(
            List.of(empty, text, good),
            new Options("Saltmarsh", "Double Bass"),
            (done, of, source, findings) -> seen.add(done + "/" + of + " " + source));
    assertThat(seen).containsExactly("1/3 a-empty.png", "2/3 b-text.png", "3/3 c-good.png");
    assertThat(read.findings()).hasSize(2);
    assertThat(read.findings()).extracting(Finding::text).allMatch(t -> !t.contains("\n"));
    assertThat(read.findings()).extracting(f -> f.page().orElse(0)).containsExactly(1, 2);
    assertThat(read.map().pages()).extracting(Page::index).containsExactly(3);
    assertThat(read.map().pages().get(0).systems()).hasSizeGreaterThan(5);
    assertThat(read.map().bars()).isNotEmpty();
    // Valid by the schema, and the same when read back.
    assertThat(BarMapJson.read(BarMapJson.write(read.map())).bars())
        .hasSameSizeAs(read.map().bars());
  }

  @Test
  void aPageWithoutMusicIsAFinding(@TempDir Path folder) throws IOException {
    Path blank = folder.resolve("blank.png");
    BufferedImage white = new BufferedImage(600, 800, BufferedImage.TYPE_BYTE_GRAY);
    white.createGraphics().fillRect(0, 0, 600, 800);
    ImageIO.write(white, "png", blank.toFile());
    Extraction read = extractor.read(List.of(blank), Options.NONE, Progress.NONE);
    assertThat(read.map().bars()).isEmpty();
    assertThat(read.findings()).extracting(Finding::text).anyMatch(t -> t.contains("blank.png"));
  }

  @Test
  void stopsBetweenPagesAndKeepsWhatWasRead() {
    int[] pages = new int[1];
    Progress stopAfterOne =
        new Progress() {
          @Override
          public void page(int done, int of, String source, List<Finding> findings) {
            pages[0] = done;
          }

          @Override
          public boolean cancelled() {
            return pages[0] >= 1;
          }
        };
    Extraction read =
        extractor.read(
            List.of(BOOK.resolve("page-01.png"), BOOK.resolve("page-04.png")),
            Options.NONE,
            stopAfterOne);
    assertThat(read.map().pages()).hasSize(1);
  }

  @Test
  void drawsAnOverlayForEveryPage(@TempDir Path folder) throws IOException {
    List<Path> pages = List.of(BOOK.resolve("page-01.png"));
    Extraction read = extractor.read(pages, Options.NONE, Progress.NONE);
    List<Path> written = Overlay.write(pages, read.map(), folder.resolve("overlays"));
    assertThat(written).hasSize(1);
    assertThat(ImageIO.read(written.get(0).toFile()).getWidth()).isGreaterThan(500);
  }
}
