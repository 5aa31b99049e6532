package org.barmap;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What the stages decide by thresholds stands in their settings, not in the middle of code. */
class InlineNumbersTest {

  private static final Path MODULES = Path.of(String.valueOf(System.getProperty("barmap.home")));

  /** The most numbers in each stage that is held to it; all stages together come to 60. */
  private static final Map<String, Integer> CEILINGS =
      Map.of(
          "org.barmap.page", 15,
          "org.barmap.staff", 15,
          "org.barmap.sign", 5,
          "org.barmap.reckon", 15);

  /**
   * Numbers that are no thresholds: bytes and offsets of the formats these files read, each beside
   * the chapter it is from, and the cells of a matrix of three by three.
   */
  private static final Set<String> ALLOWED =
      Set.of(
          "Jbig2Check.java",
          "Jpeg2000Header.java",
          "PageSource.java",
          "PictureHeader.java",
          "TiffPages.java",
          "Homography.java");

  @Test
  void theStagesNameTheirNumbers() throws IOException {
    List<InlineNumbers> all = InlineNumbers.in(MODULES.resolve("extractor/src/main/java"), ALLOWED);
    CEILINGS.forEach(
        (stage, most) -> {
          List<InlineNumbers> own = all.stream().filter(n -> n.below(stage)).toList();
          assertThat(own.size())
              .as("%s: %s", stage, InlineNumbers.table(own))
              .isLessThanOrEqualTo(most);
        });
  }

  /** Every module has sources that are read, and none of them is empty of types. */
  @Test
  void allModulesAreRead() throws IOException {
    for (String module : List.of("extractor", "corpus", "service")) {
      assertThat(InlineNumbers.in(MODULES.resolve(module).resolve("src/main/java"), Set.of()))
          .as(module)
          .isNotEmpty();
    }
  }

  @Test
  void whatIsCountedAndWhatIsNot(@TempDir Path dir) throws IOException {
    Files.writeString(
        dir.resolve("A.java"),
        """
        class A {
          static final int NAMED = 7;
          int field = 8;
          double of(int[] a, int x) {
            double d = -3.5f * x + 0.5 - 255 + a[4] + (x >>> 24) + (x << 3) + 0x40;
            for (int i = -2; i < 2; i++) d += 'c' + 1e-9;
            return d;
          }
          @SuppressWarnings("9") record BSettings(int x) { BSettings() { this(11); } }
          interface I { int NAMED = 14; default int x() { return 15; } }
          enum E { ONE(12); E(int n) { int k = 13; } }
        }
        """);
    assertThat(InlineNumbers.in(dir, Set.of("A.java 64")))
        .extracting(InlineNumbers::text)
        .containsExactly("8", "3.5", "3", "1.0E-9", "15", "13");
  }
}
