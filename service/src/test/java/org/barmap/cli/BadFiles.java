package org.barmap.cli;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Random;
import java.util.zip.CRC32;
import java.util.zip.Deflater;
import java.util.zip.DeflaterOutputStream;
import javax.imageio.ImageIO;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.encryption.AccessPermission;
import org.apache.pdfbox.pdmodel.encryption.StandardProtectionPolicy;

/** Makes the files nobody wants to meet. */
public final class BadFiles {

  private BadFiles() {}

  static Path empty(Path folder) throws IOException {
    return Files.createFile(folder.resolve("empty.png"));
  }

  static Path text(Path folder) throws IOException {
    return Files.writeString(folder.resolve("text.png"), "Dear pit, these are no pages.\n");
  }

  static Path truncatedJpeg(Path folder) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    ImageIO.write(noise(900, 1200), "jpg", out);
    byte[] whole = out.toByteArray();
    byte[] half = java.util.Arrays.copyOf(whole, whole.length / 2);
    return Files.write(folder.resolve("truncated.jpg"), half);
  }

  /** A table top: no staff on it. */
  static Path table(Path folder) throws IOException {
    Path file = folder.resolve("table.jpg");
    ImageIO.write(noise(1200, 900), "jpg", file.toFile());
    return file;
  }

  /** A page on which nothing is printed. */
  public static Path whitePage(Path folder) throws IOException {
    BufferedImage image = new BufferedImage(1240, 1754, BufferedImage.TYPE_BYTE_GRAY);
    Graphics2D g = image.createGraphics();
    g.setColor(Color.WHITE);
    g.fillRect(0, 0, 1240, 1754);
    g.dispose();
    Path file = folder.resolve("white.png");
    ImageIO.write(image, "png", file.toFile());
    return file;
  }

  private static BufferedImage noise(int width, int height) {
    BufferedImage image = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
    Random random = new Random(5);
    for (int y = 0; y < height; y++) {
      for (int x = 0; x < width; x++) {
        int brown = 90 + random.nextInt(40) + (int) (20 * Math.sin(x / 70.0 + y / 300.0));
        image.setRGB(x, y, brown << 16 | (brown * 3 / 4) << 8 | brown / 2);
      }
    }
    return image;
  }

  /** A picture of 30,000 × 30,000 pixels in under a megabyte: a bomb. */
  static Path hugePng(Path folder) throws IOException {
    ByteArrayOutputStream data = new ByteArrayOutputStream();
    try (DeflaterOutputStream deflater =
        new DeflaterOutputStream(data, new Deflater(Deflater.BEST_SPEED))) {
      byte[] row = new byte[1 + 30_000 / 8];
      for (int y = 0; y < 30_000; y++) {
        deflater.write(row);
      }
    }
    Path file = folder.resolve("huge.png");
    try (OutputStream out = Files.newOutputStream(file)) {
      out.write(new byte[] {(byte) 0x89, 'P', 'N', 'G', '\r', '\n', 0x1a, '\n'});
      byte[] head = {0, 0, 0x75, 0x30, 0, 0, 0x75, 0x30, 1, 0, 0, 0, 0};
      chunk(out, "IHDR", head);
      chunk(out, "IDAT", data.toByteArray());
      chunk(out, "IEND", new byte[0]);
    }
    return file;
  }

  private static void chunk(OutputStream out, String type, byte[] data) throws IOException {
    byte[] name = type.getBytes(StandardCharsets.US_ASCII);
    CRC32 crc = new CRC32();
    crc.update(name);
    crc.update(data);
    out.write(int32(data.length));
    out.write(name);
    out.write(data);
    out.write(int32((int) crc.getValue()));
  }

  private static byte[] int32(int value) {
    return new byte[] {
      (byte) (value >> 24), (byte) (value >> 16), (byte) (value >> 8), (byte) value
    };
  }

  static Path encryptedPdf(Path folder) throws IOException {
    Path file = folder.resolve("encrypted.pdf");
    try (PDDocument document = new PDDocument()) {
      document.addPage(new PDPage());
      StandardProtectionPolicy policy =
          new StandardProtectionPolicy("owner", "secret", new AccessPermission());
      policy.setEncryptionKeyLength(128);
      document.protect(policy);
      document.save(file.toFile());
    }
    return file;
  }

  static Path longPdf(Path folder) throws IOException {
    Path file = folder.resolve("long.pdf");
    try (PDDocument document = new PDDocument()) {
      for (int i = 0; i < 3000; i++) {
        document.addPage(new PDPage());
      }
      document.save(file.toFile());
    }
    return file;
  }
}
