package org.barmap.page.file;

import java.io.IOException;
import java.nio.BufferUnderflowException;
import java.nio.ByteBuffer;

/**
 * Looks through the segments of a JBIG2 picture inside a PDF before it is decoded (ITU-T T.88,
 * chapter 7): the decoder asks for as much memory as they claim.
 */
final class Jbig2Check {

  private static final int SYMBOLS = 0;
  private static final int PATTERNS = 16;
  private static final int FIRST_HALFTONE = 20;
  private static final int LAST_HALFTONE = 23;
  private static final int PAGE = 48;
  private static final int END_OF_PAGE = 49;
  private static final int FIRST_REGION = 4;
  private static final int LAST_REGION = 43;

  /** A generic region alone may leave its length open. */
  private static final int OPEN_LENGTH = 0xffffffff;

  /** A page whose height is not known yet; it grows by stripes. */
  private static final int OPEN_HEIGHT = 0xffffffff;

  /** The most symbols of one dictionary; a page of print has some hundreds. */
  private static final int MAX_SYMBOLS = 65_536;

  /** The most patterns of a halftone; eight bits of gray have 256. */
  private static final int MAX_PATTERNS = 65_536;

  private boolean page;
  private boolean region;

  private Jbig2Check() {}

  /**
   * Checks a picture.
   *
   * @param globals segments shared with other pictures; may be empty
   * @param data the picture's own segments
   * @throws IOException when it breaks off or holds nothing
   * @throws UnreadableException when it claims more than is read
   */
  static void check(byte[] globals, byte[] data) throws IOException, UnreadableException {
    Jbig2Check check = new Jbig2Check();
    try {
      check.segments(ByteBuffer.wrap(globals));
      check.segments(ByteBuffer.wrap(data));
    } catch (BufferUnderflowException | IllegalArgumentException | IndexOutOfBoundsException e) {
      throw new IOException("the JBIG2 picture breaks off", e);
    }
    if (!check.page || !check.region) {
      throw new IOException("nothing is drawn in the JBIG2 picture");
    }
  }

  private void segments(ByteBuffer b) throws IOException, UnreadableException {
    // What is shorter than a header is filling.
    while (b.remaining() >= 11) {
      int number = b.getInt();
      int flags = b.get();
      int references = b.get(b.position()) >> 5 & 7;
      if (references == 7) {
        references = b.getInt() & 0x1fffffff;
        skip(b, (references + 8L) / 8);
      } else {
        b.get();
      }
      int width = Integer.compareUnsigned(number, 256) <= 0 ? 1 : number >>> 16 == 0 ? 2 : 4;
      skip(b, (long) references * width);
      skip(b, (flags & 0x40) == 0 ? 1 : 4);
      int length = b.getInt();
      int type = flags & 0x3f;
      look(type, b.slice());
      if (length == OPEN_LENGTH || type == END_OF_PAGE) {
        return;
      }
      skip(b, length & 0xffffffffL);
    }
  }

  private static void skip(ByteBuffer b, long bytes) {
    if (bytes > b.remaining()) {
      throw new BufferUnderflowException();
    }
    b.position(b.position() + (int) bytes);
  }

  private void look(int type, ByteBuffer b) throws IOException, UnreadableException {
    if (type == PAGE) {
      int width = b.getInt();
      int height = b.getInt();
      size(width, height == OPEN_HEIGHT ? 1 : height);
      page = true;
    } else if (type == SYMBOLS) {
      int flags = b.getShort();
      boolean huffman = (flags & 1) != 0;
      boolean refined = (flags & 2) != 0;
      int template = flags >> 10 & 3;
      skip(b, huffman ? 0 : template == 0 ? 8 : 2);
      skip(b, refined && (flags & 0x1000) == 0 ? 4 : 0);
      atMost(b.getInt(), MAX_SYMBOLS);
      atMost(b.getInt(), MAX_SYMBOLS);
    } else if (type == PATTERNS) {
      skip(b, 3);
      atMost(b.getInt(), MAX_PATTERNS);
    } else if (type >= FIRST_REGION && type <= LAST_REGION) {
      region = true;
      size(b.getInt(), b.getInt());
      if (type >= FIRST_HALFTONE && type <= LAST_HALFTONE) {
        skip(b, 10);
        size(b.getInt(), b.getInt()); // of its grid
      }
    }
  }

  private static void size(int width, int height) throws UnreadableException {
    Document.checkSize(width & 0xffffffffL, height & 0xffffffffL);
  }

  private static void atMost(int count, int most) throws IOException {
    if (count < 0 || count > most) {
      throw new IOException("a JBIG2 picture of too many parts");
    }
  }
}
