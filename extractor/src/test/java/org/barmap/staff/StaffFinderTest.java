package org.barmap.staff;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Random;
import org.barmap.map.Outline;
import org.barmap.map.Point;
import org.barmap.page.PageImage;
import org.barmap.page.PagePainter;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.opencv.core.Core;
import org.opencv.core.Mat;

/** Painted pages are damaged and read; the painted staves must come back. */
class StaffFinderTest {

  /** A page with staves at a usual distance, all bent alike. */
  private static PagePainter page(double space, int staves, PagePainter.Bend bend) {
    int width = (int) (100 * space);
    PagePainter p = new PagePainter(width, (int) ((staves * 12 + 12) * space));
    return fill(p, space, staves, bend);
  }

  private static PagePainter fill(PagePainter p, double space, int staves, PagePainter.Bend bend) {
    for (int i = 0; i < staves; i++) {
      p.staff(6 * space, 93 * space, (9 + 12 * i) * space, space, bend);
    }
    return p;
  }

  private static void comesBack(PagePainter painter, PageImage page) {
    List<FoundSystem> found = StaffFinder.find(page);
    assertThat(found).hasSameSizeAs(painter.staves());
    for (int i = 0; i < found.size(); i++) {
      PagePainter.Painted want = painter.staves().get(i);
      FoundSystem got = found.get(i);
      double s = want.space();
      assertThat(got.staffSpace()).isBetween(0.96 * s, 1.04 * s);
      Outline o = got.outline();
      assertThat(o.leftMiddle().distance(new Point(want.left(), want.middle(want.left()))))
          .as("left end of staff %d", i + 1)
          .isLessThan(0.6 * s);
      assertThat(o.rightMiddle().distance(new Point(want.right(), want.middle(want.right()))))
          .as("right end of staff %d", i + 1)
          .isLessThan(0.6 * s);
      for (Point p : got.midline()) {
        assertThat(p.y())
            .as("middle line of staff %d at x = %s", i + 1, p.x())
            .isBetween(want.middle(p.x()) - 0.2 * s, want.middle(p.x()) + 0.2 * s);
      }
    }
  }

  private static void comesBack(PagePainter painter) {
    try (PageImage page = PagePainter.read(painter.image())) {
      comesBack(painter, page);
    }
  }

  @ParameterizedTest
  @ValueSource(doubles = {6, 8, 13, 20, 30, 45})
  void staffSpacesFromTinyToHuge(double space) {
    try (PagePainter p = page(space, 4, x -> 0)) {
      comesBack(p);
    }
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 2, 9, 16})
  void oneToSixteenStaves(int staves) {
    try (PagePainter p = page(12, staves, x -> 0)) {
      comesBack(p);
    }
  }

  @ParameterizedTest
  @ValueSource(doubles = {-10, -4, -1, 1, 3, 10})
  void skew(double degrees) {
    double slope = Math.tan(Math.toRadians(degrees));
    double space = 16;
    int width = (int) (100 * space);
    double drop = Math.abs(slope) * width;
    try (PagePainter p = new PagePainter(width, (int) (62 * space + drop))) {
      fill(p, space, 4, x -> slope > 0 ? slope * x : slope * (x - width));
      comesBack(p);
    }
  }

  @ParameterizedTest
  @CsvSource({"2.5, 20", "-2, 15", "4, 40"})
  void curledTowardsTheBinding(double rise, double reach) {
    double space = 16;
    try (PagePainter p = new PagePainter((int) (100 * space), (int) (70 * space))) {
      for (int i = 0; i < 4; i++) {
        p.staff(
            6 * space,
            93 * space,
            (10 + 14 * i) * space,
            space,
            x -> -rise * space * Math.exp(-x / (reach * space)));
      }
      comesBack(p);
    }
  }

  @ParameterizedTest
  @ValueSource(doubles = {0.06, 0.1, 0.2, 0.28})
  void thinAndThickLines(double thickness) {
    try (PagePainter p = new PagePainter(1600, 1000)) {
      fill(p.thickness(thickness), 16, 4, x -> 3 * Math.sin(x / 200));
      comesBack(p);
    }
  }

  @Test
  void faintBrokenNoisyAndInShadow() {
    try (PagePainter p = new PagePainter(1600, 1000)) {
      fill(p.broken(0.3), 16, 4, x -> 0);
      comesBack(p);
    }
    try (PagePainter p = new PagePainter(1600, 1000)) {
      fill(p.ink(170), 16, 4, x -> 0);
      comesBack(p.noise(5));
    }
    try (PagePainter p = new PagePainter(1600, 1000)) {
      fill(p, 16, 4, x -> 0);
      comesBack(p.blur(1.5).shadow(0.35).noise(4));
    }
  }

  @Test
  void bilevelSpeckle() {
    try (PagePainter p = page(14, 5, x -> 0)) {
      Random random = new Random(3);
      for (int i = 0; i < 20_000; i++) {
        p.image()
            .put(
                random.nextInt(p.image().rows()),
                random.nextInt(p.image().cols()),
                random.nextBoolean() ? 0 : 255);
      }
      comesBack(p);
    }
  }

  @ParameterizedTest
  @ValueSource(ints = {0, 1, 2, 3})
  void quarterTurns(int turns) {
    try (PagePainter p = page(16, 5, x -> 0);
        org.barmap.page.pixel.Mats scope = new org.barmap.page.pixel.Mats()) {
      Mat turned = scope.mat();
      p.image().copyTo(turned);
      for (int i = 0; i < turns; i++) {
        Mat next = scope.mat();
        Core.rotate(turned, next, Core.ROTATE_90_CLOCKWISE);
        turned = next;
      }
      try (PageImage page = PagePainter.read(turned)) {
        assertThat(page.width()).isEqualTo(turned.cols());
        List<FoundSystem> found = StaffFinder.find(page);
        assertThat(found).hasSize(5);
        for (int i = 0; i < 5; i++) {
          PagePainter.Painted want = p.staves().get(i);
          Point left = new Point(want.left(), want.y());
          for (int t = 0, h = p.image().rows(), w = p.image().cols(); t < turns; t++) {
            left = new Point(h - left.y(), left.x());
            int swap = h;
            h = w;
            w = swap;
          }
          assertThat(found.get(i).outline().leftMiddle().distance(left)).isLessThan(10);
        }
      }
    }
  }

  @Test
  void photographOnATable() {
    try (PagePainter p = page(16, 6, x -> 0)) {
      p.shadow(0.6);
      List<Point> corners =
          List.of(
              new Point(210, 150),
              new Point(1700, 260),
              new Point(1780, 1560),
              new Point(120, 1500));
      PagePainter.Photo photo = p.photo(1900, 1700, corners);
      try (PageImage page = PagePainter.read(photo.image())) {
        List<FoundSystem> found = StaffFinder.find(page);
        assertThat(found).hasSize(6);
        for (int i = 0; i < 6; i++) {
          PagePainter.Painted want = p.staves().get(i);
          Outline o = found.get(i).outline();
          double[][] ends = {
            {want.left(), -2}, {want.right(), -2}, {want.right(), 2}, {want.left(), 2}
          };
          List<Point> got = List.of(o.topLeft(), o.topRight(), o.bottomRight(), o.bottomLeft());
          for (int c = 0; c < 4; c++) {
            Point truth = photo.at(ends[c][0], want.y() + ends[c][1] * want.space());
            assertThat(got.get(c).distance(truth)).as("staff %d corner %d", i, c).isLessThan(9);
          }
        }
      }
    }
  }

  @Test
  void stavesJoinedAtTheLeftAreOneSystem() {
    try (PagePainter p = page(14, 6, x -> 0)) {
      p.join(0, 1).join(2, 3).join(4, 5);
      try (PageImage page = PagePainter.read(p.image())) {
        List<FoundSystem> found = StaffFinder.find(page);
        assertThat(found).hasSize(3).allSatisfy(s -> assertThat(s.staves()).hasSize(2));
        Outline o = found.get(1).outline();
        assertThat(o.topLeft().y()).isBetween(30.8 * 14, 31.2 * 14);
        assertThat(o.bottomRight().y()).isBetween(46.8 * 14, 47.2 * 14);
        Outline part = found.get(1).outlineBetween(10, 20);
        assertThat(part.topLeft().x()).isBetween(15.8 * 14, 16.2 * 14);
        assertThat(part.bottomRight().x()).isBetween(25.8 * 14, 26.2 * 14);
      }
    }
  }

  @Test
  void ledgerLinesAreNoSixthLine() {
    try (PagePainter p = page(16, 4, x -> 0)) {
      // Ledger lines over nearly every note of the second staff.
      for (int i = 0; i < 34; i++) {
        p.lines((12 + 2.35 * i) * 16, (13.9 + 2.35 * i) * 16, 18 * 16, 16, 1);
      }
      comesBack(p);
    }
  }

  @Test
  void cueStavesAndPiecesAtTheEdgeAreLeftOut() {
    try (PagePainter p = page(16, 4, x -> 0)) {
      PagePainter extra = p.staff(40 * 16, 70 * 16, 15 * 16, 9);
      // The upper lines of a staff cut off by the bottom edge, and one cut at the side.
      extra.lines(6 * 16, 93 * 16, p.image().rows() - 30, 16, 3);
      try (PageImage page = PagePainter.read(p.image())) {
        assertThat(StaffFinder.find(page)).hasSize(4);
      }
    }
  }

  @Test
  void textTablesAndRuledPaperAreNoStaves() {
    try (PagePainter p = new PagePainter(1500, 2000)) {
      p.text(100, 1400, 150, 22, 40);
      nothing(p);
    }
    try (PagePainter p = new PagePainter(1500, 2000)) {
      p.lines(100, 1400, 200, 30, 40);
      nothing(p);
    }
    try (PagePainter p = new PagePainter(1500, 2000)) {
      p.lines(100, 1400, 200, 24, 9).text(100, 1400, 700, 20, 20);
      nothing(p);
    }
    try (PagePainter p = new PagePainter(1500, 2000)) {
      nothing(p.noise(6));
    }
  }

  @Test
  void aPhotoOfATableHasNoStaves() {
    Random random = new Random(11);
    try (PagePainter p = new PagePainter(1600, 1200)) {
      for (int i = 0; i < 260; i++) {
        double y = random.nextDouble() * 1200;
        double a = 4 + random.nextDouble() * 10;
        double f = 150 + random.nextInt(400);
        p.ink(150 + random.nextInt(90)).thickness(0.05 + random.nextDouble() * 0.2);
        double left = random.nextDouble() * 1200;
        for (double x = left; x < left + 400; x += 20) {
          double from = y + a * Math.sin(x / f);
          p.lines(x, x + 20, from, 20, 1);
        }
      }
      nothing(p.shadow(0.5).blur(1).noise(5));
    }
  }

  private static void nothing(PagePainter p) {
    try (PageImage page = PagePainter.read(p.image())) {
      List<FoundSystem> found = StaffFinder.find(page);
      assertThat(found).isEmpty();
      assertThat(StaffFinder.findings(page, found))
          .singleElement()
          .satisfies(f -> assertThat(f.code()).isEqualTo("no-staves"));
    }
  }
}
