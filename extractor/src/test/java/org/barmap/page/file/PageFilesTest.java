package org.barmap.page.file;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class PageFilesTest {

  @TempDir Path dir;

  @Test
  void foldersAreSortedAsPeopleDo() throws IOException {
    for (String name :
        List.of(
            "page-10.png",
            "page-2.PNG",
            "page-1b.jpg",
            "page-1.tiff",
            "b.pdf",
            ".x.png",
            "readme.md")) {
      Files.createFile(dir.resolve(name));
    }
    Files.createDirectory(dir.resolve("inner.png"));
    assertThat(PageFiles.list(List.of(dir)).files())
        .extracting(PageFiles::name)
        .containsExactly("b.pdf", "page-1.tiff", "page-1b.jpg", "page-2.PNG", "page-10.png");
  }

  @Test
  void filesKeepTheOrderGiven() throws IOException {
    Path b = Files.createFile(dir.resolve("b.png"));
    Path a = Files.createFile(dir.resolve("a.scan"));
    assertThat(PageFiles.list(List.of(b, a, b)).files()).containsExactly(b, a, b);
  }

  @Test
  void numbersOfAnyLength() {
    assertThat(NaturalOrder.INSTANCE.compare("p007", "p7")).isNotZero();
    assertThat(NaturalOrder.INSTANCE.compare("p99999999999999999999", "p100000000000000000000"))
        .isNegative();
    assertThat(NaturalOrder.INSTANCE.compare("p2-10", "p2-9")).isPositive();
    assertThat(NaturalOrder.INSTANCE.compare("p", "p1")).isNegative();
  }
}
