package org.barmap.staff;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import javax.imageio.ImageIO;
import org.barmap.page.PageImage;
import org.barmap.page.PagePainter;
import org.barmap.page.PageResult;
import org.barmap.page.PageSource;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.opencv.core.Mat;
import org.opencv.core.Scalar;

/** Two staves are one system where barlines run through both (common practice). */
class JoinedSystemsTest {

  @TempDir Path dir;

  @Test
  void barlinesThroughBothStavesJoinThem() throws IOException {
    assertThat(systems(new int[] {120, 600, 1100, 1479}, 0)).containsExactly(2, 2, 2);
  }

  @Test
  void aLongStrokeAlongThePageJoinsNothing() throws IOException {
    assertThat(systems(new int[] {}, 700)).containsExactly(1, 1, 1, 1, 1, 1);
  }

  /** A gutter and a paper's edge cross all staves, the barlines none of the gaps. */
  @Test
  void twoStrokesAmongManyBarlinesJoinNothing() throws IOException {
    between = false;
    assertThat(systems(new int[] {300, 500, 700, 900, 1100, 1300}, 160))
        .containsExactly(1, 1, 1, 1, 1, 1);
  }

  /** The table a book lies on is dark from staff to staff, left of the paper. */
  @Test
  void theTableAtTheLeftJoinsNothing() throws IOException {
    assertThat(systems(new int[] {}, 0)).hasSize(6);
    try (PageSource source = new PageSource(List.of(dir.resolve("page.png")));
        PageImage page = ((PageResult.Loaded) source.next()).page()) {
      List<Candidate> staves =
          Candidate.good(StaffFinder.candidates(page, Pixels.of(page.gray()))).stream()
              .sorted(Comparator.comparingDouble(c -> c.staff().height()))
              .toList();
      int left = (int) staves.get(0).staff().left();
      assertThat(Systems.group(page, dark(page, 0, left + 4), staves)).hasSize(6);
      assertThat(Systems.group(page, dark(page, left, left + 4), staves)).hasSize(1);
    }
  }

  /** The page with some columns dark. */
  private static Pixels dark(PageImage page, int from, int to) {
    Mat gray = page.gray().clone();
    Mat columns = gray.colRange(from, to);
    columns.setTo(new Scalar(20));
    Pixels pixels = Pixels.of(gray);
    columns.release();
    gray.release();
    return pixels;
  }

  private boolean between = true;

  /** Draws three pairs of staves; barlines run through each pair, a long line through the page. */
  private List<Integer> systems(int[] barlines, int line) throws IOException {
    BufferedImage image = PagePainter.drawn(1600, 1700, g -> pairs(g, barlines, line));
    Path file = dir.resolve("page.png");
    ImageIO.write(image, "png", file.toFile());
    try (PageSource source = new PageSource(List.of(file));
        PageImage page = ((PageResult.Loaded) source.next()).page()) {
      return StaffFinder.find(page).stream().map(s -> s.staves().size()).toList();
    }
  }

  private void pairs(Graphics2D g, int[] barlines, int line) {
    for (int pair = 0; pair < 3; pair++) {
      int top = 120 + 520 * pair;
      for (int staff = 0; staff < 2; staff++) {
        for (int l = 0; l < 5; l++) {
          g.fillRect(120, top + 190 * staff + 16 * l, 1360, 2);
        }
      }
      for (int x : barlines) {
        g.fillRect(x, top, 3, between ? 190 + 66 : 66);
        g.fillRect(x, top + 190, 3, 66);
      }
    }
    if (line > 0) {
      g.fillRect(line, 60, 3, 1600);
      g.fillRect(line + 300, 60, 3, 1600);
    }
  }
}
