package org.barmap.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import javax.imageio.ImageIO;
import org.barmap.map.Finding;
import org.barmap.page.file.Document;
import org.barmap.page.file.UnreadableException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class PlainPagesTest {

  @TempDir Path dir;

  @Test
  void aBlankPageIsSaidToBeEmptyNotBlurred() throws IOException {
    BufferedImage white = new BufferedImage(1600, 2200, BufferedImage.TYPE_BYTE_GRAY);
    java.util.Arrays.fill(
        ((java.awt.image.DataBufferByte) white.getRaster().getDataBuffer()).getData(), (byte) 250);
    Path file = dir.resolve("blank.png");
    ImageIO.write(white, "png", file.toFile());
    try (PageSource source = new PageSource(List.of(file))) {
      PageResult page = source.next();
      assertThat(page.findings()).extracting(Finding::code).containsExactly("empty");
      ((PageResult.Loaded) page).page().close();
    }
  }

  /** Orientation 6: row 0 of the file is the right side of the picture (TIFF 6.0, tag 274). */
  @Test
  void theOrientationTagOfATiffIsHonoured() throws IOException {
    Path file = dir.resolve("turned.tif");
    Files.write(file, tiff(900, 600, 6));
    try (PageSource source = new PageSource(List.of(file));
        PageImage page = ((PageResult.Loaded) source.next()).page()) {
      assertThat(page.width()).isEqualTo(600);
      assertThat(page.height()).isEqualTo(900);
    }
    try (Document document = PageSource.document(file)) {
      org.opencv.core.Mat gray = document.page(0);
      // The dark corner at the file's upper left is the picture's upper right.
      assertThat(gray.get(20, 580)[0]).isLessThan(50);
      assertThat(gray.get(20, 20)[0]).isGreaterThan(200);
      assertThat(gray.get(880, 580)[0]).isGreaterThan(200);
      gray.release();
    } catch (UnreadableException e) {
      throw new AssertionError(e);
    }
  }

  /** A gray TIFF, uncompressed, dark in its upper left corner. */
  private static byte[] tiff(int width, int height, int orientation) {
    int[][] tags = {
      {256, 4, width},
      {257, 4, height},
      {258, 3, 8},
      {259, 3, 1},
      {262, 3, 1},
      {273, 4, 200},
      {274, 3, orientation},
      {277, 3, 1},
      {278, 4, height},
      {279, 4, width * height}
    };
    ByteBuffer out = ByteBuffer.allocate(200 + width * height).order(ByteOrder.LITTLE_ENDIAN);
    out.put((byte) 'I').put((byte) 'I').putShort((short) 42).putInt(8);
    out.putShort((short) tags.length);
    for (int[] tag : tags) {
      out.putShort((short) tag[0]).putShort((short) tag[1]).putInt(1).putInt(tag[2]);
    }
    out.putInt(0);
    for (int y = 0; y < height; y++) {
      for (int x = 0; x < width; x++) {
        out.put(200 + y * width + x, (byte) (x < 100 && y < 100 ? 0 : 250));
      }
    }
    return out.array();
  }
}
