package org.barmap.staff;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.barmap.map.Outline;
import org.barmap.map.Point;
import org.barmap.page.PageImage;
import org.barmap.page.PagePainter;
import org.barmap.page.PageResult;
import org.barmap.page.PageSource;
import org.barmap.page.pixel.Mats;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class OpeningTest {

  /** Bytes beside the Java heap. */
  private static final long MOST_GROWN = 35L << 20;

  private static final int ROUNDS = 4;

  @TempDir Path dir;

  @Test
  void anOpeningIsReadAsTwoPagesInThePixelsOfItsFile() {
    Path file = dir.resolve("opening.png");
    List<PagePainter.Painted> want;
    try (PagePainter p = new PagePainter(2600, 1500)) {
      for (int i = 0; i < 6; i++) {
        p.staff(90, 1240, 150 + 210 * i, 14);
      }
      for (int i = 0; i < 6; i++) {
        p.staff(1370, 2520, 190 + 205 * i, 14);
      }
      p.write(file);
      want = p.staves();
    }
    List<Outline> got = new ArrayList<>();
    int pages = 0;
    try (PageSource source = new PageSource(List.of(file))) {
      while (source.hasNext()) {
        try (PageImage page = ((PageResult.Loaded) source.next()).page()) {
          pages++;
          assertThat(page.width()).isEqualTo(2600);
          StaffFinder.find(page).forEach(s -> got.add(s.outline()));
        }
      }
    }
    assertThat(pages).isEqualTo(2);
    assertThat(got).hasSize(12);
    for (int i = 0; i < 12; i++) {
      Point left = new Point(want.get(i).left(), want.get(i).y());
      assertThat(got.get(i).leftMiddle().distance(left)).isLessThan(8);
    }
  }

  @Test
  void aStaffRunningAcrossTheMiddleMakesItOnePage() {
    Path file = dir.resolve("wide.png");
    try (PagePainter p = new PagePainter(2600, 1500)) {
      p.staff(90, 2500, 250, 14);
      for (int i = 1; i < 6; i++) {
        p.staff(90, 1240, 250 + 200 * i, 14);
      }
      p.write(file);
    }
    try (PageSource source = new PageSource(List.of(file));
        PageImage page = ((PageResult.Loaded) source.next()).page()) {
      assertThat(source.hasNext()).isFalse();
      assertThat(StaffFinder.find(page)).hasSize(6);
    }
  }

  @Test
  void nothingNativeIsLeftBehind() throws IOException {
    Path file = dir.resolve("page.jpg");
    try (PagePainter p = new PagePainter(1600, 1400)) {
      for (int i = 0; i < 6; i++) {
        p.staff(90, 1500, 150 + 210 * i, 14);
      }
      p.write(file);
    }
    readAll(file, 5);
    // 25 pages hold some 55 MB of working images alone; a leak of one of them shows in every round,
    // what the compiler or another thread takes in some
    List<Long> grown = new ArrayList<>();
    do {
      long before = resident();
      readAll(file, 25);
      grown.add(resident() - before);
    } while (Collections.min(grown) >= MOST_GROWN && grown.size() < ROUNDS);
    assertThat(Mats.live()).isZero();
    assertThat(grown).as("bytes that each round of 25 pages left").anyMatch(g -> g < MOST_GROWN);
  }

  private static void readAll(Path file, int times) {
    for (int i = 0; i < times; i++) {
      try (PageSource source = new PageSource(List.of(file));
          PageImage page = ((PageResult.Loaded) source.next()).page()) {
        for (FoundSystem system : StaffFinder.find(page)) {
          Strip.cut(page, system.staves().get(0), 8);
        }
      }
    }
    System.gc();
  }

  /** Returns the memory of this process outside the Java heap, 0 where the system doesn't say. */
  private static long resident() throws IOException {
    Path status = Path.of("/proc/self/statm");
    if (!Files.exists(status)) {
      return 0;
    }
    long pages = Long.parseLong(Files.readString(status).split(" ")[1]);
    return pages * 4096 - Runtime.getRuntime().totalMemory();
  }
}
