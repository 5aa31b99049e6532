package org.barmap.bench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import javax.imageio.ImageIO;
import org.barmap.page.pixel.WorkStep;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What the bench says fits together; how fast anything is, is never asserted. */
class ReadBenchTest {
  @TempDir private Path folder;

  @Test
  void itsFiguresFitTogether() throws IOException {
    Path page = page("page.png", 900, 1200);
    ReadBench bench = ReadBench.read(List.of(page));
    assertThat(bench.pages()).isEqualTo(1);
    assertThat(bench.floorSecondsPerPage()).isPositive();
    assertThat(bench.ratio())
        .isCloseTo(bench.secondsPerPage() / bench.floorSecondsPerPage(), within(1e-9));
    assertThat(bench.cpuSecondsPerPage()).isPositive();
    assertThat(bench.bookSecondsPerPage()).isPositive();
    assertThat(bench.peakMiB()).isNotNegative();
    assertThat(bench.stages().keySet())
        .containsExactlyElementsOf(Arrays.stream(WorkStep.values()).map(WorkStep::word).toList());
    assertThat(bench.stages().values()).allSatisfy(s -> assertThat(s).isNotNegative());
    assertThat(bench.stages().get(WorkStep.DECODE.word())).isPositive();
  }

  @Test
  void theFloorDecodesWhatTheReaderDecodes() throws IOException {
    Path page = page("page.png", 900, 1200);
    assertThat(PageFloor.measure(page)).isEqualTo(1);
    byte[] bytes = Files.readAllBytes(page);
    Path half = Files.write(folder.resolve("half.png"), Arrays.copyOf(bytes, bytes.length / 2));
    assertThatThrownBy(() -> PageFloor.measure(half)).isInstanceOf(IOException.class);
  }

  @Test
  void nothingToMeasureIsSaid() {
    assertThatThrownBy(() -> ReadBench.read(List.of(folder)))
        .isInstanceOf(IOException.class)
        .hasMessageContaining("no page files");
  }

  /** Draws a page with one staff and three barlines. */
  private Path page(String name, int width, int height) throws IOException {
    BufferedImage image = new BufferedImage(width, height, BufferedImage.TYPE_BYTE_GRAY);
    var g = image.createGraphics();
    g.setColor(java.awt.Color.WHITE);
    g.fillRect(0, 0, width, height);
    g.setColor(java.awt.Color.BLACK);
    for (int line = 0; line < 5; line++) {
      g.fillRect(100, 400 + 16 * line, width - 200, 2);
    }
    for (int x = 300; x < width - 100; x += 150) {
      g.fillRect(x, 400, 3, 66);
    }
    g.dispose();
    Path file = folder.resolve(name);
    ImageIO.write(image, "png", file.toFile());
    return file;
  }
}
