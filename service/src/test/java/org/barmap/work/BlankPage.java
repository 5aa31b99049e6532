package org.barmap.work;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import javax.imageio.ImageIO;

/** A page with nothing on it, for what looks at pages and not at what is read of them. */
public final class BlankPage {

  private static final byte[] PNG = encoded();

  private BlankPage() {}

  private static byte[] encoded() {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try {
      ImageIO.write(new BufferedImage(1000, 1400, BufferedImage.TYPE_BYTE_GRAY), "png", out);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return out.toByteArray();
  }

  /** Returns its file, a PNG. */
  public static byte[] png() {
    return PNG.clone();
  }

  /** Writes its file. */
  static void into(Path file) throws IOException {
    Files.write(file, PNG);
  }
}
