package org.barmap.sign.strip;

import java.util.List;
import org.barmap.map.Point;

/**
 * A staff straightened to a gray image of fixed scale: ink dark (0) on paper light (255), 160
 * pixels high at 8 pixels a staff space, the middle line at y = 88; it begins 3 spaces left of the
 * staff.
 */
public interface StripImage {

  /** Pixels a staff space. */
  int SPACE = 8;

  /** Pixels a staff space of the finer strip. */
  int FINE = 2 * SPACE;

  /** Height in pixels. */
  int HEIGHT = 160;

  /** The middle staff line's y. */
  int MIDDLE = 88;

  /** The x of the staff's left end. */
  int LEFT = 24;

  /** Returns how far along the staff a column lies, staff spaces from its left end. */
  static double along(double u) {
    return (u - LEFT) / SPACE;
  }

  /** Returns the column of a place along the staff, given in staff spaces from its left end. */
  static double column(double along) {
    return LEFT + along * SPACE;
  }

  /** Returns the width in pixels. */
  int width();

  /** Returns the gray values row by row, {@code width * 160} bytes. */
  byte[] gray();

  /**
   * Returns a part of the same at 16 pixels a space, row by row.
   *
   * @param left first column, {@code -fineBefore()} or more
   * @param top first row, {@code -fineAbove()} or more
   * @param right behind the last column, at most twice the width
   * @param bottom behind the last row, at most twice the height
   */
  byte[] fine(int left, int top, int right, int bottom);

  /** Returns a part likewise, only to see where ink is. */
  default byte[] rough(int left, int top, int right, int bottom) {
    return fine(left, top, right, bottom);
  }

  /** Returns how many rows of the page above the strip there are at 16 pixels a space. */
  default int fineAbove() {
    return 0;
  }

  /** Returns how many columns of the page left of the strip there are at 16 pixels a space. */
  default int fineBefore() {
    return 0;
  }

  /** Returns the rows of the page above the strip, half as many; none unless there are some. */
  default byte[] above() {
    return new byte[0];
  }

  /** Returns the pieces of ink over the staff. */
  default List<InkPiece> pieces() {
    return InkOver.pieces(this);
  }

  /** Returns the spaces above the middle line that belong to this staff and no other. */
  default double room() {
    return MIDDLE / (double) SPACE;
  }

  /** Returns where a point of the strip (8 pixels a space) lies in the given file. */
  Point toFile(double u, double v);
}
