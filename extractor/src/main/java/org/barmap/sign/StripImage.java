package org.barmap.sign;

import org.barmap.map.Point;

/**
 * A staff straightened to a gray image of fixed scale: ink dark (0) on paper light (255), 160
 * pixels high at 8 pixels a staff space, the middle line at y = 88; it begins 3 spaces left of the
 * staff.
 */
interface StripImage {

  /** Pixels a staff space. */
  int SPACE = 8;

  /** Height in pixels. */
  int HEIGHT = 160;

  /** The middle staff line's y. */
  int MIDDLE = 88;

  /** The x of the staff's left end. */
  int LEFT = 24;

  /** Returns the width in pixels. */
  int width();

  /** Returns the gray values row by row, {@code width * 160} bytes. */
  byte[] gray();

  /** Returns the same at 16 pixels a space, with some of the page above it. */
  Fine fine();

  /**
   * The strip at 16 pixels a space.
   *
   * @param gray row by row
   * @param width in pixels
   * @param above rows before the strip's own first row
   */
  @SuppressWarnings("ArrayRecordComponent") // a view of pixels, compared by nobody
  record Fine(byte[] gray, int width, int above) {

    /** Without any of the page above. */
    Fine(byte[] gray, int width) {
      this(gray, width, 0);
    }

    int rows() {
      return gray.length / width;
    }
  }

  /** Returns the spaces above the middle line that belong to this staff and no other. */
  default double room() {
    return MIDDLE / (double) SPACE;
  }

  /** Returns where a point of the strip (8 pixels a space) lies in the given file. */
  Point toFile(double u, double v);
}
