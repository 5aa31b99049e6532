package org.barmap.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.barmap.map.Finding;
import org.barmap.page.pixel.Mats;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Files of every kind with bytes changed by chance: each is pages or a plain sentence. More of
 * them: {@code -Dbarmap.fuzz.files=20000 -Dbarmap.fuzz.seed=7}. What once broke something is a test
 * of its own beside this one.
 */
class FuzzedFilesTest {

  private static final int CASES = Integer.getInteger("barmap.fuzz.files", 200);
  private static final long SEED = Long.getLong("barmap.fuzz.seed", 1);

  /** Numbers at which readers of files go wrong: ends of ranges, and beyond them. */
  private static final int[] ODD = {
    0, 1, -1, 0x7f, 0x80, 0xff, 0x7fff, 0x8000, 0xffff, 1 << 30, 1 << 31
  };

  @TempDir private Path dir;

  private List<byte[]> whole() throws IOException {
    List<byte[]> files = new ArrayList<>();
    for (String ending : List.of("png", "jpg", "tif")) {
      Path file = dir.resolve("whole." + ending);
      try (PagePainter p = new PagePainter(160, 120)) {
        p.staff(10, 150, 20, 6).write(file);
      }
      files.add(Files.readAllBytes(file));
    }
    files.add(Bombs.png(64, 48, 6, 16));
    files.add(Bombs.tiff(64, 48, 4, 16));
    files.add(Bombs.tiff(64, 48, 1, 8));
    files.add(small(Bombs.nestedForms(2)));
    files.add(small(Bombs.deepPageTree(3)));
    return files;
  }

  private static byte[] small(byte[] pdf) {
    String text = new String(pdf, StandardCharsets.ISO_8859_1);
    return text.replace("595 842", "060 040").getBytes(StandardCharsets.ISO_8859_1);
  }

  @Test
  void everyFileIsPagesOrAPlainSentence() throws IOException {
    List<byte[]> whole = whole();
    for (int i = 0; i < CASES; i++) {
      long seed = SEED * 1_000_003 + i;
      Random random = new Random(seed);
      byte[] bytes = whole.get(i % whole.size());
      // what is left of it may be nothing
      for (int n = 1 + random.nextInt(3); n > 0 && bytes.length > 0; n--) {
        bytes = changed(bytes, whole, random);
      }
      look(Files.write(dir.resolve("fuzzed"), bytes), seed);
    }
    assertThat(Mats.live()).isZero();
  }

  private static void look(Path file, long seed) {
    try (PageSource source = new PageSource(List.of(file))) {
      while (source.hasNext()) {
        PageResult result = source.next();
        for (Finding f : result.findings()) {
          assertThat(f.text())
              .as("seed " + seed)
              .doesNotContain("\n", "Exception", "Error", "null");
        }
        if (result instanceof PageResult.Loaded loaded) {
          loaded.page().close();
        }
      }
    } catch (RuntimeException | Error e) {
      throw new AssertionError("seed " + seed, e);
    }
  }

  /** One change: bytes turned, a number put in, a piece out, twice, or from another file. */
  private static byte[] changed(byte[] bytes, List<byte[]> others, Random random) {
    byte[] out = bytes.clone();
    int at = random.nextInt(bytes.length);
    int end = Math.min(bytes.length, at + 1 + random.nextInt(40));
    switch (random.nextInt(6)) {
      case 0 -> out[at] ^= (byte) (1 << random.nextInt(8));
      case 1 -> {
        int odd = ODD[random.nextInt(ODD.length)];
        for (int i = at; i < Math.min(bytes.length, at + 4); i++) {
          out[i] = (byte) (odd >> 8 * (i - at));
        }
      }
      case 2 -> out = joined(bytes, at, new byte[0], end);
      case 3 -> out = joined(bytes, end, Arrays.copyOfRange(bytes, at, end), end);
      case 4 -> {
        byte[] other = others.get(random.nextInt(others.size()));
        int from = random.nextInt(other.length);
        out =
            joined(
                bytes, at, Arrays.copyOfRange(other, from, Math.min(other.length, from + 60)), end);
      }
      default -> out = Arrays.copyOf(bytes, Math.max(1, at));
    }
    return out;
  }

  private static byte[] joined(byte[] bytes, int head, byte[] middle, int tail) {
    byte[] out = Arrays.copyOf(bytes, head + middle.length + bytes.length - tail);
    System.arraycopy(middle, 0, out, head, middle.length);
    System.arraycopy(bytes, tail, out, head + middle.length, bytes.length - tail);
    return out;
  }
}
