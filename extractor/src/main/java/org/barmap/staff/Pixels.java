package org.barmap.staff;

import org.opencv.core.Mat;

/** The gray values of a working image, for looking at single places. */
final class Pixels {

  private final byte[] values;
  private final int width;
  private final int height;

  private Pixels(byte[] values, int width, int height) {
    this.values = values;
    this.width = width;
    this.height = height;
  }

  static Pixels of(Mat gray) {
    byte[] values = new byte[gray.rows() * gray.cols()];
    gray.get(0, 0, values);
    return new Pixels(values, gray.cols(), gray.rows());
  }

  int width() {
    return width;
  }

  int height() {
    return height;
  }

  /** Returns the gray value at a place, white outside. */
  int at(double x, double y) {
    int i = (int) Math.floor(x);
    int j = (int) Math.floor(y);
    return i < 0 || j < 0 || i >= width || j >= height ? 255 : values[j * width + i] & 0xff;
  }

  /** Returns the darkest value of a place and of those beside it, white outside. */
  int darkestBeside(double x, double y) {
    int i = (int) Math.floor(x);
    int j = (int) Math.floor(y);
    if (i < 1 || j < 0 || i + 1 >= width || j >= height) {
      return Math.min(at(x, y), Math.min(at(x - 1, y), at(x + 1, y)));
    }
    int at = j * width + i;
    return Math.min(values[at] & 0xff, Math.min(values[at - 1] & 0xff, values[at + 1] & 0xff));
  }

  /** Returns the darkest value of a column between two heights. */
  int darkest(double x, double from, double to) {
    int best = 255;
    for (double y = from; y < to; y++) {
      best = Math.min(best, at(x, y));
    }
    return Math.min(best, at(x, to));
  }
}
