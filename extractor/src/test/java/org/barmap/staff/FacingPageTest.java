package org.barmap.staff;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.barmap.map.Finding;
import org.barmap.page.PageImage;
import org.barmap.page.PagePainter;
import org.barmap.page.PageResult;
import org.barmap.page.PageSource;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Pictures painted with more, or less, than one page; where each staff lies is known. */
class FacingPageTest {

  private static final int SPACE = 14;

  @TempDir Path dir;

  /** What was read: for each page how many staves, and what was said. */
  private record Read(List<Integer> staves, List<String> codes, double left) {}

  /** Six staves one under the other, each further to the right by as much as the page leans. */
  private record Column(double left, double right, double top, double apart, double lean) {
    void paint(PagePainter p) {
      for (int i = 0; i < 6; i++) {
        p.staff(left + lean * i, right + lean * i, top + apart * i, SPACE);
      }
    }
  }

  private Read read(int width, Column... columns) {
    try (PagePainter p = new PagePainter(width, 1500)) {
      List.of(columns).forEach(c -> c.paint(p));
      return read(p);
    }
  }

  private Read read(PagePainter painter) {
    Path file = dir.resolve("page.png");
    painter.write(file);
    List<Integer> staves = new ArrayList<>();
    List<String> codes = new ArrayList<>();
    double left = Double.MAX_VALUE;
    try (PageSource source = new PageSource(List.of(file))) {
      while (source.hasNext()) {
        PageResult.Loaded loaded = (PageResult.Loaded) source.next();
        codes.addAll(loaded.findings().stream().map(Finding::code).toList());
        try (PageImage page = loaded.page()) {
          List<FoundSystem> systems = StaffFinder.find(page);
          staves.add(systems.size());
          for (FoundSystem s : systems) {
            left = Math.min(left, s.outline().leftMiddle().x());
          }
        }
      }
    }
    return new Read(staves, codes, left);
  }

  @Test
  void aStripOfTheFacingPageIsLeftOutAndSaid() {
    Read read = read(1700, new Column(-900, 230, 150, 215, 0), new Column(400, 1600, 170, 210, 0));
    assertThat(read.staves()).containsExactly(6);
    assertThat(read.left()).isGreaterThan(380);
    assertThat(read.codes()).containsExactly("facing-page");
  }

  @Test
  void stripsAtBothEdgesAreLeftOutWhenTheCameraLeans() {
    Read read =
        read(
            2000,
            new Column(-900, 180, 150, 210, 8),
            new Column(300, 1540, 160, 210, 8),
            new Column(1670, 2600, 170, 205, 8));
    assertThat(read.staves()).containsExactly(6);
    assertThat(read.left()).isGreaterThan(190);
    assertThat(read.codes()).containsExactly("facing-page");
  }

  @Test
  void ofAnOpeningWhoseRightPageIsCutOffTheLeftOneIsRead() {
    Read read = read(2150, new Column(90, 1240, 150, 210, 0), new Column(1370, 2520, 190, 205, 0));
    assertThat(read.staves()).containsExactly(6);
    assertThat(read.codes()).containsExactly("page-cut-off");
  }

  @Test
  void bothPagesOfAnOpeningAreReadWhereItsGutterIsNotInTheMiddle() {
    Read read = read(3400, new Column(90, 1240, 150, 210, 0), new Column(1360, 2510, 190, 205, 0));
    assertThat(read.staves()).containsExactly(6, 6);
    assertThat(read.codes()).isEmpty();
  }

  /**
   * A coda often begins beside the end of the line before it, with a gap between (common practice).
   */
  @Test
  void aLineInTwoPiecesMakesNoGutter() {
    try (PagePainter p = new PagePainter(1700, 1500)) {
      for (int i = 0; i < 5; i++) {
        p.staff(100, 1600, 150 + 210 * i, SPACE);
      }
      p.staff(100, 800, 150 + 210 * 5, SPACE);
      p.staff(950, 1600, 150 + 210 * 5, SPACE);
      Read read = read(p);
      assertThat(read.staves()).hasSize(1);
      assertThat(read.codes()).isEmpty();
    }
  }
}
