package org.barmap.page.file;

import java.io.IOException;
import java.nio.BufferUnderflowException;
import java.nio.ByteBuffer;

/**
 * What the first bytes of a JPEG 2000 picture claim, read without decoding it (ITU-T T.800, annexes
 * A and I).
 *
 * @param width pixels
 * @param height pixels
 * @param components 1 gray, 2 gray and its cover, 3 colours, 4 colours and their cover
 */
record Jpeg2000Header(int width, int height, int components) {

  private static final int START_OF_CODESTREAM_AND_SIZE = 0xff4fff51;
  private static final int CODESTREAM_BOX = 0x6a703263; // "jp2c"
  private static final int HEADER_BOX = 0x6a703268; // "jp2h"
  private static final int COLOUR_BOX = 0x636f6c72; // "colr"

  /** Enumerated colour spaces of four components that are no ink colours: sRGB and sYCC. */
  private static final int SRGB = 16;

  private static final int SYCC = 18;

  /** The most tiles; scanners write one, or tiles of some 1,000 pixels. */
  private static final long MAX_TILES = 4096;

  /**
   * Reads the header.
   *
   * @throws IOException when it is no JPEG 2000 picture, or of a kind that is not read
   * @throws UnreadableException when it claims more than is read
   */
  static Jpeg2000Header of(byte[] bytes) throws IOException, UnreadableException {
    try {
      ByteBuffer b = ByteBuffer.wrap(bytes);
      if (b.getInt(0) == START_OF_CODESTREAM_AND_SIZE) {
        return codestream(b, false);
      }
      return boxes(b);
    } catch (BufferUnderflowException | IndexOutOfBoundsException e) {
      throw new IOException("the JPEG 2000 picture breaks off in its header", e);
    }
  }

  private static Jpeg2000Header boxes(ByteBuffer b) throws IOException, UnreadableException {
    boolean plain = false;
    while (b.remaining() >= 8) {
      int start = b.position();
      long length = b.getInt() & 0xffffffffL;
      int type = b.getInt();
      if (length == 1) {
        length = b.getLong();
      }
      if (type == CODESTREAM_BOX) {
        return codestream(b.slice(), plain);
      }
      if (type == HEADER_BOX) {
        continue; // a box of boxes: go on inside
      }
      if (type == COLOUR_BOX && b.get(b.position()) == 1) {
        int space = b.getInt(b.position() + 3);
        plain = space >= SRGB && space <= SYCC;
      }
      if (length < 8 || start + length > b.limit()) {
        break;
      }
      b.position((int) (start + length));
    }
    throw new IOException("no JPEG 2000 code stream");
  }

  private static Jpeg2000Header codestream(ByteBuffer b, boolean plain)
      throws IOException, UnreadableException {
    if (b.getInt() != START_OF_CODESTREAM_AND_SIZE) {
      throw new IOException("no JPEG 2000 code stream");
    }
    b.getInt(); // length and profile
    long right = unsigned(b);
    long bottom = unsigned(b);
    long width = right - unsigned(b);
    long height = bottom - unsigned(b);
    long tileWidth = unsigned(b);
    long tileHeight = unsigned(b);
    b.getLong(); // where the tiles begin
    int components = b.getShort() & 0xffff;
    if (width <= 0 || height <= 0 || tileWidth == 0 || tileHeight == 0) {
      throw new IOException("a JPEG 2000 picture without a size");
    }
    Document.checkSize(width, height);
    if (components < 1 || components > 4 || components == 4 && !plain) {
      throw new IOException("a JPEG 2000 picture of " + components + " components");
    }
    if ((right / tileWidth + 1) * (bottom / tileHeight + 1) > MAX_TILES) {
      throw new IOException("a JPEG 2000 picture of too many tiles");
    }
    // A decoder holds an int for every pixel of every component.
    if (width * height * components > Document.MAX_PIXELS) {
      throw Document.tooLarge(width, height);
    }
    return new Jpeg2000Header((int) width, (int) height, components);
  }

  private static long unsigned(ByteBuffer b) {
    return b.getInt() & 0xffffffffL;
  }
}
