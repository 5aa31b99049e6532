package org.barmap.staff;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.util.List;
import java.util.function.BiConsumer;
import java.util.function.Function;
import java.util.stream.IntStream;
import org.barmap.page.PageImage;
import org.barmap.page.PagePainter;
import org.barmap.page.PageResult;
import org.barmap.page.PageSource;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Pages painted with staves of one line, and with lines that are none; where each lies is known.
 */
class LoneStavesTest {

  private static final double SPACE = 16;
  private static final int WIDTH = 1500;

  @TempDir Path dir;

  private <T> T on(PagePainter painter, Function<PageImage, T> look) {
    Path file = dir.resolve("page.png");
    painter.write(file);
    painter.close();
    try (PageSource source = new PageSource(List.of(file));
        PageImage page = ((PageResult.Loaded) source.next()).page()) {
      return look.apply(page);
    }
  }

  private static List<Staff> staves(PageImage page) {
    return StaffFinder.find(page).stream().flatMap(s -> s.staves().stream()).toList();
  }

  private static PagePainter page() {
    return new PagePainter(WIDTH, 2000);
  }

  /** Half the height of barlines on one line: one space, or as on five lines (common practice). */
  @ParameterizedTest
  @ValueSource(doubles = {1, 1.5, 2})
  void aPageOfThem(double half) {
    PagePainter p = page();
    for (int i = 0; i < 8; i++) {
      p.single(100, 1400, 200 + 203 * i, SPACE, half);
    }
    List<FoundSystem> found = on(p, StaffFinder::find);
    assertThat(found).hasSize(8).allMatch(s -> s.staves().get(0).hasFewLines());
    for (int i = 0; i < 8; i++) {
      FoundSystem system = found.get(i);
      assertThat(system.staffSpace()).isCloseTo(SPACE, within(1.0));
      assertThat(system.midline()).allMatch(m -> Math.abs(m.x()) > 0);
      assertThat(system.midline().get(0).y()).isCloseTo(200 + 203.0 * i, within(2.0));
      assertThat(system.midline().get(0).x()).isCloseTo(100, within(3.0));
      assertThat(system.outline().rightMiddle().x()).isCloseTo(1400, within(4.0));
    }
  }

  /**
   * How far apart two lines are drawn differs between programs; barlines reach from one to the
   * other.
   */
  @ParameterizedTest
  @ValueSource(ints = {1, 2, 3})
  void aPageOfTwoLines(int apart) {
    PagePainter p = page();
    for (int i = 0; i < 8; i++) {
      p.few(100, 1400, 200 + 203 * i, SPACE, apart / 2.0, 0, apart);
    }
    List<FoundSystem> found = on(p, StaffFinder::find);
    assertThat(found).hasSize(8).allMatch(s -> s.staves().get(0).hasFewLines());
    for (int i = 0; i < 8; i++) {
      FoundSystem system = found.get(i);
      assertThat(system.staffSpace()).isCloseTo(SPACE, within(1.0));
      // The upper line is that of five which lies nearest to where the two are in their middle.
      double middle = 200 + 203 * i + (apart / 2) * SPACE;
      assertThat(system.midline().get(0).y()).isCloseTo(middle, within(2.0));
      assertThat(system.outline().rightMiddle().x()).isCloseTo(1400, within(4.0));
    }
  }

  /** Every third staff is painted otherwise than of five lines, and found to be. */
  private void assertFoundAmongFive(BiConsumer<PagePainter, Double> other) {
    PagePainter p = page();
    for (int i = 0; i < 8; i++) {
      double y = 200 + 203 * i;
      if (i % 3 == 1) {
        other.accept(p, y);
      } else {
        p.staff(100, 1400, y, SPACE);
      }
    }
    assertThat(on(p, LoneStavesTest::staves))
        .extracting(Staff::hasFewLines)
        .containsExactly(false, true, false, false, true, false, false, true);
  }

  @Test
  void twoLinesAmongStavesOfFive() {
    assertFoundAmongFive((p, y) -> p.few(100, 1400, y, SPACE, 1, -1, 1));
  }

  @Test
  void theStripOfTwoLinesHasFiveAndBarlinesToTheOuterOnes() {
    PagePainter p = page();
    for (int i = 0; i < 6; i++) {
      p.few(100, 1400, 200 + 253 * i, SPACE, 1, -1, 1);
    }
    Strip strip = on(p, page -> Strip.cut(page, staves(page).get(0), 8));
    int u = (3 + 40) * 8;
    for (int k = -2; k <= 2; k++) {
      assertThat(dark(strip, u, (Strip.MIDDLE + k) * 8)).as("line %d", k).isTrue();
    }
    assertBarlineGoesOnTo(strip, -1.6, 0.5, 1.6);
  }

  @Test
  void amongStavesOfFiveLines() {
    assertFoundAmongFive((p, y) -> p.single(100, 1400, y, SPACE, 1));
  }

  @Test
  void ruledLinesAndTablesAreNone() {
    PagePainter p = page();
    for (int i = 0; i < 5; i++) {
      p.staff(100, 1400, 200 + 150 * i, SPACE);
    }
    p.lines(100, 1400, 1000, 60, 4).table(100, 1400, 1300, 40, 2).table(100, 1400, 1500, 30, 6);
    assertThat(on(p, LoneStavesTest::staves)).hasSize(5).noneMatch(Staff::hasFewLines);
    PagePainter alone = page().lines(100, 1400, 200, 90, 6).table(100, 1400, 900, 40, 2);
    alone.table(100, 1400, 1200, 30, 8).text(100, 1400, 1600, 24, 4);
    assertThat(on(alone, LoneStavesTest::staves)).isEmpty();
    PagePainter rows = page();
    for (int i = 0; i < 6; i++) {
      rows.table(100, 1400, 200 + 203 * i, 32, 1);
    }
    assertThat(on(rows, LoneStavesTest::staves)).isEmpty();
  }

  /** The network reads staves of five lines only, with counts and marks outside of them. */
  @Test
  void theStripHasFiveLinesAndWhatStandsCloseIsMovedOut() {
    PagePainter p = page();
    for (int i = 0; i < 6; i++) {
      p.single(100, 1400, 200 + 253 * i, SPACE, 1);
      // a figure between one and two spaces over the line, clear of all notes
      p.box(110 + 50, 200 + 253 * i - 2 * SPACE, 110 + 58, 200 + 253 * i - 1.1 * SPACE);
    }
    Strip strip = on(p, page -> Strip.cut(page, staves(page).get(0), 8));
    int u = (3 + 40) * 8;
    for (int k = -2; k <= 2; k++) {
      assertThat(dark(strip, u, (Strip.MIDDLE + k) * 8)).as("line %d", k).isTrue();
    }
    int figure = (int) ((3 + 64 / SPACE) * 8);
    assertThat(dark(strip, figure, (int) ((Strip.MIDDLE - 2.5) * 8))).isTrue();
    assertThat(dark(strip, figure, (int) ((Strip.MIDDLE - 1.5) * 8))).isFalse();
    assertBarlineGoesOnTo(strip, -1.6, 1.6);
  }

  /** In a bad copy a line may begin in dashes; where others begin, it does too. */
  @Test
  void aLineGoesOnInDashesToWhereOthersBegin() {
    PagePainter p = page();
    for (int i = 0; i < 6; i++) {
      double y = 200 + 253 * i;
      p.single(i == 2 ? 420 : 100, 1400, y, SPACE, 1);
      for (double x = 100; i == 2 && x < 420; x += 40) {
        p.box(x, y - 1, x + 18, y + 1);
      }
    }
    assertThat(on(p, LoneStavesTest::staves))
        .hasSize(6)
        .allMatch(s -> Math.abs(s.left() - 100) < SPACE);
  }

  /** The second stroke of a final barline is drawn on as the first is; the bow of a C is not. */
  @Test
  void theStripHasBarlinesOfTwoStrokesWhole() {
    PagePainter p = page();
    double from = 1400 - 1.3 * SPACE;
    double bow = 1400 - 1.3 * SPACE;
    for (int i = 0; i < 6; i++) {
      double y = 200 + 253 * i;
      p.single(100, 1400, y, SPACE, 1);
      if (i == 0) {
        p.box(from, y - SPACE, from + 0.7 * SPACE, y + SPACE);
      } else if (i == 1) {
        p.box(bow, y - 0.9 * SPACE, bow + 0.35 * SPACE, y + 0.9 * SPACE);
        p.box(bow, y - 0.95 * SPACE, bow + 0.7 * SPACE, y - 0.75 * SPACE);
        p.box(bow, y + 0.75 * SPACE, bow + 0.7 * SPACE, y + 0.95 * SPACE);
      }
    }
    List<Strip> strips =
        on(p, page -> staves(page).stream().map(s -> Strip.cut(page, s, 8)).toList());
    int row = (int) ((Strip.MIDDLE - 1.6) * 8);
    assertThat(dark(strips.get(0), column(strips.get(0), from + 0.25 * SPACE), row)).isTrue();
    assertThat(dark(strips.get(1), column(strips.get(1), bow + 0.2 * SPACE), row)).isFalse();
  }

  private static int column(Strip strip, double x) {
    return (int) ((Strip.MARGIN + strip.staff().alongAt(x)) * 8);
  }

  /** The first barline is drawn at these places, spaces below the middle line. */
  private static void assertBarlineGoesOnTo(Strip strip, double... places) {
    for (double across : places) {
      int row = (int) ((Strip.MIDDLE + across) * 8);
      assertThat(
              IntStream.rangeClosed((3 + 17) * 8, (3 + 19) * 8).anyMatch(x -> dark(strip, x, row)))
          .as("the barline is drawn on to %s", across)
          .isTrue();
    }
  }

  private static boolean dark(Strip strip, int u, int v) {
    int least = 255;
    for (int j = v - 1; j <= v + 1; j++) {
      for (int i = u - 1; i <= u + 1; i++) {
        least = Math.min(least, strip.gray()[j * strip.width() + i] & 0xff);
      }
    }
    return least < 150;
  }
}
