package org.barmap.page.file;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;

/**
 * What the first bytes of a PNG or JPEG say, read without decoding the picture.
 *
 * @param width pixels as stored
 * @param height pixels as stored
 * @param bytesOfPixel what a pixel takes when it is decoded; channels times bytes of each
 * @param complete whether the file goes on to its end mark
 */
record PictureHeader(int width, int height, int bytesOfPixel, boolean complete) {

  /** Reads the chunks of a PNG (ISO/IEC 15948): IHDR first, IEND last. */
  static PictureHeader png(byte[] b) throws UnreadableException {
    if (b.length < 33 || !tag(b, 12).equals("IHDR")) {
      throw damaged();
    }
    int width = int32(b, 16);
    int height = int32(b, 20);
    int bytes = bytesOfPixel(b[24], b[25]);
    long at = 8;
    while (at + 12 <= b.length) {
      long length = int32(b, (int) at) & 0xffffffffL;
      if (tag(b, (int) at + 4).equals("IEND")) {
        return new PictureHeader(width, height, bytes, true);
      }
      at += 12 + length;
    }
    return new PictureHeader(width, height, bytes, false);
  }

  /** Of bits a channel, at least 8, and the colour type of ISO/IEC 15948, table 11.1. */
  private static int bytesOfPixel(byte bits, byte type) {
    int channels =
        switch (type) {
          case 0 -> 1;
          case 2, 3 -> 3;
          default -> 4;
        };
    return channels * (bits > Byte.SIZE ? 2 : 1);
  }

  /**
   * Walks the segments of a JPEG (ITU-T T.81): a frame header, scans, the end mark FFD9. It is
   * decoded as gray.
   */
  static PictureHeader jpeg(byte[] b) throws UnreadableException {
    int width = 0;
    int height = 0;
    int at = 2;
    while (at + 3 < b.length) {
      if ((b[at] & 0xff) != 0xff) {
        at++; // entropy-coded data, or filling before the next marker
        continue;
      }
      int marker = b[at + 1] & 0xff;
      if (marker == 0xd9) {
        return done(width, height, true);
      }
      boolean alone =
          marker == 0 || marker == 1 || marker == 0xff || marker >= 0xd0 && marker <= 0xd8;
      if (alone) {
        at += marker == 0xff ? 1 : 2;
        continue;
      }
      int length = (b[at + 2] & 0xff) << 8 | b[at + 3] & 0xff;
      boolean frame =
          marker >= 0xc0 && marker <= 0xcf && marker != 0xc4 && marker != 0xc8 && marker != 0xcc;
      if (frame && at + 9 <= b.length) {
        height = (b[at + 5] & 0xff) << 8 | b[at + 6] & 0xff;
        width = (b[at + 7] & 0xff) << 8 | b[at + 8] & 0xff;
      }
      at += 2 + length;
    }
    boolean ends =
        b.length >= 2 && (b[b.length - 2] & 0xff) == 0xff && (b[b.length - 1] & 0xff) == 0xd9;
    return done(width, height, ends);
  }

  private static PictureHeader done(int width, int height, boolean complete)
      throws UnreadableException {
    if (width == 0 || height == 0) {
      throw complete ? damaged() : broken();
    }
    return new PictureHeader(width, height, 1, complete);
  }

  static UnreadableException damaged() {
    return new UnreadableException(
        "damaged", "the picture is damaged; copy it again, or scan or photograph the page again.");
  }

  static UnreadableException broken() {
    return new UnreadableException(
        "truncated", "the file breaks off before its end; copy it again from where it came.");
  }

  private static String tag(byte[] b, int at) {
    return new String(Arrays.copyOfRange(b, at, at + 4), StandardCharsets.ISO_8859_1);
  }

  private static int int32(byte[] b, int at) {
    return (b[at] & 0xff) << 24
        | (b[at + 1] & 0xff) << 16
        | (b[at + 2] & 0xff) << 8
        | b[at + 3] & 0xff;
  }
}
