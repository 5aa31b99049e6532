package org.barmap.staff;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import javax.imageio.ImageIO;
import org.barmap.page.PageImage;
import org.barmap.page.PagePainter;
import org.barmap.page.PageResult;
import org.barmap.page.PageSource;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Copies of copies: a line goes on to its last barline though only dashes are left of it. */
class FaintStavesTest {

  @TempDir Path dir;

  @Test
  void dashesAreFollowedToTheLastBarline() throws IOException {
    assertThat(right(true)).isCloseTo(1480, within(8.0));
  }

  @Test
  void aLineThatEndsEndsThere() throws IOException {
    assertThat(right(false)).isCloseTo(1000, within(8.0));
  }

  /** Returns where the third of four staves ends, whose last third is dashes or nothing. */
  private double right(boolean dashes) throws IOException {
    BufferedImage image = PagePainter.drawn(1600, 1400, g -> lines(g, dashes));
    Path file = dir.resolve("page.png");
    ImageIO.write(image, "png", file.toFile());
    try (PageSource source = new PageSource(List.of(file));
        PageImage page = ((PageResult.Loaded) source.next()).page()) {
      List<FoundSystem> systems = StaffFinder.find(page);
      assertThat(systems).hasSize(4);
      double working = page.gray().cols() / 1600.0;
      return systems.get(2).staves().get(0).right() / working;
    }
  }

  private static void lines(Graphics2D g, boolean dashes) {
    for (int staff = 0; staff < 4; staff++) {
      int top = 150 + 280 * staff;
      int end = staff == 2 ? 1000 : 1480;
      for (int line = 0; line < 5; line++) {
        g.fillRect(120, top + 16 * line, end - 120, 2);
        for (int x = end; dashes && x < 1480; x += 24) {
          g.fillRect(x + 5 * line, top + 16 * line, 4, 2);
        }
      }
      for (int x = 120; x <= (dashes ? 1480 : end); x += 170) {
        g.fillRect(x, top, 3, 66);
      }
    }
  }
}
