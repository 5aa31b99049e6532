package org.barmap.staff;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.barmap.map.Point;
import org.barmap.page.PageImage;
import org.barmap.page.PagePainter;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A bent staff comes out straight, at the agreed heights. */
class StripTest {

  @ParameterizedTest
  @CsvSource({"14, 8", "14, 16", "32, 8", "7, 8", "22, 16"})
  void linesLieWhereTheyShould(double space, int px) {
    try (PagePainter p = new PagePainter((int) (100 * space), (int) (40 * space))) {
      for (int i = 0; i < 2; i++) {
        p.staff(
            5 * space,
            95 * space,
            (12 + 15 * i) * space,
            space,
            x -> 1.5 * space * Math.sin(x / (30 * space)));
      }
      try (PageImage page = PagePainter.read(p.image())) {
        List<FoundSystem> found = StaffFinder.find(page);
        assertThat(found).hasSize(2);
        Strip strip = Strip.cut(page, found.get(0).staves().get(0), px);
        assertThat(strip.height()).isEqualTo(20 * px);
        assertThat(strip.width()).isBetween((int) (95.5 * px), (int) (97.5 * px));
        int straight = 0;
        for (int u = 4 * px; u < strip.width() - 4 * px; u += px) {
          boolean all = true;
          for (int k = -2; k <= 2; k++) {
            int y = (11 + k) * px;
            int line = 255;
            for (int d = -px / 8 - 1; d <= px / 8; d++) {
              line = Math.min(line, strip.gray()[(y + d) * strip.width() + u] & 0xff);
            }
            all &= line < 190;
          }
          straight += all ? 1 : 0;
        }
        assertThat(straight / (strip.width() / px - 8.0)).isGreaterThan(0.9);
        // Outside the staff there is paper, and a place leads back to the file.
        assertThat(strip.gray()[11 * px * strip.width() + px] & 0xff).isGreaterThan(230);
        PagePainter.Painted want = p.staves().get(0);
        double x = 40 * space;
        double u = found.get(0).staves().get(0).alongAt(page.toWork(x, want.middle(x)).x());
        Point back = strip.toFile((u + 3) * px, 11.0 * px);
        assertThat(back.distance(new Point(x, want.middle(x)))).isLessThan(0.2 * space);
      }
    }
  }
}
