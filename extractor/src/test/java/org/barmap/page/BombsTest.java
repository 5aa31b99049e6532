package org.barmap.page;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.barmap.map.Finding;
import org.barmap.page.pixel.Mats;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Small files that ask for very much cost one page each; the page after them is still read. */
class BombsTest {

  @TempDir Path dir;

  /** What is said of a file, and of the good page behind it, which must be read. */
  private List<String> codes(String name, byte[] content) throws IOException {
    Path good = dir.resolve("good.png");
    try (PagePainter p = new PagePainter(1000, 600)) {
      p.staff(60, 940, 150, 12).staff(60, 940, 350, 12).write(good);
    }
    List<String> codes = new ArrayList<>();
    boolean read = false;
    try (PageSource source =
        new PageSource(List.of(Files.write(dir.resolve(name), content), good))) {
      while (source.hasNext()) {
        PageResult result = source.next();
        for (Finding f : result.findings()) {
          codes.add(f.code());
          assertThat(f.text()).doesNotContain("\n", "Exception", "Error", "org.");
        }
        if (result instanceof PageResult.Loaded loaded) {
          read |= loaded.source().equals("good.png");
          loaded.page().close();
        }
      }
    }
    assertThat(read).as("the good page").isTrue();
    assertThat(Mats.live()).isZero();
    return codes;
  }

  private int pixels(String name, byte[] content) throws IOException {
    try (PageSource source = new PageSource(List.of(Files.write(dir.resolve(name), content)))) {
      PageResult.Loaded loaded = (PageResult.Loaded) source.next();
      try (PageImage page = loaded.page()) {
        return page.width() * page.height();
      }
    }
  }

  /** 119 million pixels of 8 bytes: read at less than its resolution. */
  @Test
  void tiffOfAGigabyte() throws IOException {
    byte[] bomb = Bombs.tiff(10_900, 10_900, 4, 16);
    assertThat(bomb.length).isLessThan(1_000_000);
    assertThat(pixels("bomb.tif", bomb)).isBetween(20_000_000, 60_000_000);
  }

  /** A picture's pixels are the map's, so it can't be read at less than its resolution. */
  @Test
  void pngOfAGigabyte() throws IOException {
    byte[] bomb = Bombs.png(10_900, 10_900, 6, 16);
    assertThat(bomb.length).isLessThan(1_500_000);
    assertThat(codes("bomb.png", bomb)).containsExactly("too-large");
    assertThat(codes("fine.png", Bombs.png(2_480, 3_508, 6, 16))).doesNotContain("too-large");
  }

  /** A picture that came with a book is shown and cut without having been opened as an upload. */
  @Test
  void picturesAreShownWithinTheSameLimits() throws IOException {
    PagePictures.Region part = new PagePictures.Region(0, 0, 40, 40);
    for (byte[] bomb : List.of(Bombs.png(10_900, 10_900, 6, 16), Bombs.png(39_000, 39_000, 0, 1))) {
      Path file = Files.write(dir.resolve("bomb.png"), bomb);
      assertThatThrownBy(() -> PagePictures.scaled(file, 400)).isInstanceOf(IOException.class);
      assertThatThrownBy(() -> PagePictures.part(file, part, 40)).isInstanceOf(IOException.class);
      assertThatThrownBy(() -> PagePictures.forPaper(file, part, 9, 40))
          .isInstanceOf(IOException.class);
    }
    Path fine = Files.write(dir.resolve("fine.png"), Bombs.png(2_480, 3_508, 6, 16));
    assertThat(PagePictures.scaled(fine, 400)).isNotEmpty();
    assertThat(Mats.live()).isZero();
  }

  @Test
  void pdfWithAPageTreeOf20000Levels() throws IOException {
    assertThat(codes("deep.pdf", Bombs.deepPageTree(20_000))).containsExactly("too-deep");
  }

  @Test
  void pdfOfFormsThatCallForms() throws IOException {
    byte[] bomb = Bombs.nestedForms(12);
    assertThat(bomb.length).isLessThan(4_000);
    assertThat(codes("forms.pdf", bomb)).containsExactly("too-much");
  }

  /** They are read as empty pages, or refused; either way the book goes on. */
  @Test
  void picturesOfHardlyAnySize() throws IOException {
    for (int[] size :
        new int[][] {{1, 1}, {2, 1}, {1, 40}, {40_000, 1}, {1, 40_000}, {3, 3}, {40, 40}}) {
      for (int depth : new int[] {8, 16}) {
        codes("tiny.png", Bombs.png(size[0], size[1], 0, depth));
        codes("tiny.tif", Bombs.tiff(size[0], size[1], 3, depth));
      }
    }
  }

  @Test
  void pdfWithAPageOfNoSize() throws IOException {
    for (String box :
        List.of(
            "0 0 0 0",
            "0 0 0 842",
            "0 0 1 14400",
            "0 0 0.01 0.01",
            "-9e9 -9e9 9e9 9e9",
            "0 0 1e-9 1e9")) {
      String pdf = new String(Bombs.deepPageTree(1), StandardCharsets.US_ASCII);
      codes("box.pdf", pdf.replace("0 0 200 200", box).getBytes(StandardCharsets.US_ASCII));
    }
  }
}
