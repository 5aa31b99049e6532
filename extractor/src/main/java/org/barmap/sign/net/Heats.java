package org.barmap.sign.net;

/**
 * What the sign network says about one strip.
 *
 * @param lines heat along x at stride 2: each barline type, any barline, under an ending
 * @param heat centre heat of each box kind, 40 rows at stride 4, row by row
 * @param size planes of dx, dy, w, h in pixels, cells likewise
 * @param columns cells in a row of {@code heat}
 */
@SuppressWarnings("ArrayRecordComponent") // many numbers, compared by nobody
record Heats(float[] lines, float[] heat, float[] size, int columns) {
  static final int ROWS = 40;

  /** Pixels a row and a column of the centre heat. */
  static final int STRIDE = 4;

  /** Planes of the size: from a cell's middle to the box's, and the box's own. */
  static final int DX = 0;

  static final int DY = 1;
  static final int WIDTH = 2;
  static final int HEIGHT = 3;

  /** Returns the middle of a cell, pixels. */
  static int centre(int cell) {
    return STRIDE * cell + STRIDE / 2;
  }

  /** Returns how many places along x have a barline heat. */
  int places() {
    return 2 * columns;
  }

  float line(int type, int place) {
    return lines[type * places() + place];
  }

  float heat(int kind, int row, int column) {
    return heat[at(kind, row) + column];
  }

  /** Returns where a row of a kind begins in the centre heat. */
  int at(int kind, int row) {
    return (kind * ROWS + row) * columns;
  }

  float size(int what, int row, int column) {
    return size[(what * ROWS + row) * columns + column];
  }
}
