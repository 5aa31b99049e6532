package org.barmap.page.file;

import java.util.Optional;

/** The kinds of file that hold pages, told apart by what they begin with (common practice). */
public enum FileKind {
  PDF(mark('%', 'P', 'D', 'F')),
  PNG(mark(0x89, 'P', 'N', 'G')),
  JPEG(mark(0xff, 0xd8, 0xff)),
  /** Either byte order, and the one with 64-bit offsets. */
  TIFF(mark('I', 'I', 42, 0), mark('M', 'M', 0, 42), mark('I', 'I', 43, 0));

  /** So many bytes tell the kind. */
  public static final int HEAD = 8;

  private final int[][] marks;

  FileKind(int[]... marks) {
    this.marks = marks;
  }

  private static int[] mark(int... bytes) {
    return bytes;
  }

  /** Returns the kind of a file from its first bytes; empty when it is none of these. */
  public static Optional<FileKind> of(byte[] head) {
    for (FileKind kind : values()) {
      for (int[] mark : kind.marks) {
        if (starts(head, mark)) {
          return Optional.of(kind);
        }
      }
    }
    return Optional.empty();
  }

  private static boolean starts(byte[] head, int[] mark) {
    for (int i = 0; i < mark.length; i++) {
      if (i >= head.length || (head[i] & 0xff) != mark[i]) {
        return false;
      }
    }
    return true;
  }
}
