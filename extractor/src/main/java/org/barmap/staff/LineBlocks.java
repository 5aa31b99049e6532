package org.barmap.staff;

import org.barmap.page.Mats;
import org.opencv.core.Core;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import org.opencv.core.Size;
import org.opencv.imgproc.Imgproc;

/**
 * How much each height of the page looks like a thin level line, in blocks of a few columns.
 *
 * <p>Measured on a copy shrunk to {@link #SPACE} pixels a staff space, which is enough to place a
 * line to a fiftieth of a space; all its heights and blocks are in pixels of that copy.
 *
 * <p>A height counts as line as far as it is darker than the paper both a little above and a little
 * below; thick things (beams, heads, rests) give nothing. Values run from 0 to 1.
 */
final class LineBlocks {

  /** Columns in one block; narrow enough that a line of any allowed slope stays sharp. */
  static final int WIDTH = 6;

  /** Staff space of the copy at most, pixels. */
  private static final double SPACE = 15;

  private final float[][] values;
  private final float[][] gray;
  private final double scale;
  private final int height;
  private final double contrast;

  private LineBlocks(float[][] values, float[][] gray, int height, double contrast, double scale) {
    this.scale = scale;
    this.values = values;
    this.gray = gray;
    this.height = height;
    this.contrast = contrast;
  }

  /** Measures a working image with the given usual staff space. */
  static LineBlocks of(Mat gray, double workSpace) {
    double scale = Math.min(1, SPACE / workSpace);
    double space = workSpace * scale;
    int blocks = Math.max(1, (int) (gray.cols() * scale / WIDTH));
    int height = (int) Math.round(gray.rows() * scale);
    float[][] line = new float[blocks][height];
    float[][] level = new float[blocks][height];
    try (Mats scope = new Mats()) {
      Mat narrow = scope.mat();
      Mat whole =
          scope.keep(
              gray.colRange(0, Math.min(gray.cols(), (int) Math.round(blocks * WIDTH / scale))));
      Imgproc.resize(whole, narrow, new Size(blocks, height), 0, 0, Imgproc.INTER_AREA);
      Imgproc.GaussianBlur(narrow, narrow, new Size(1, 3), 0.01, 0.7);
      Mat turned = scope.mat();
      Core.transpose(narrow, turned);
      Mat real = scope.mat();
      turned.convertTo(real, CvType.CV_32F);
      int reach = Math.max(2, (int) Math.round(0.4 * space));
      for (int b = 0; b < blocks; b++) {
        real.get(b, 0, level[b]);
        ridge(level[b], reach, line[b]);
      }
    }
    double typical = typical(line, height, space);
    double contrast = Math.max(8, Math.min(80, 0.7 * typical));
    float gain = (float) (1 / contrast);
    for (float[] l : line) {
      for (int y = 0; y < height; y++) {
        l[y] = Math.min(1, l[y] * gain);
      }
    }
    return new LineBlocks(line, level, height, typical, scale);
  }

  private static void ridge(float[] g, int reach, float[] out) {
    int h = g.length;
    for (int y = 0; y < h; y++) {
      float above = y >= reach ? g[y - reach] : 250;
      float below = y + reach < h ? g[y + reach] : 250;
      out[y] = Math.max(0, Math.min(above, below) - g[y]);
    }
  }

  /** Returns the usual strength of a staff line: of the second weakest line of the best comb. */
  private static double typical(float[][] line, int height, double space) {
    double[] best = new double[line.length];
    int[] at = new int[5];
    for (int k = 0; k < 5; k++) {
      at[k] = (int) Math.round(k * space);
    }
    for (int b = 0; b < line.length; b++) {
      float[] l = line[b];
      float top = 0;
      for (int y = 1; y + at[4] + 1 < height; y++) {
        float weakest = Float.MAX_VALUE;
        float second = Float.MAX_VALUE;
        for (int k = 0; k < 5; k++) {
          int c = y + at[k];
          float v = Math.max(l[c], Math.max(l[c - 1], l[c + 1]));
          if (v < weakest) {
            second = weakest;
            weakest = v;
          } else if (v < second) {
            second = v;
          }
        }
        top = Math.max(top, second);
      }
      best[b] = top;
    }
    java.util.Arrays.sort(best);
    return best[best.length * 3 / 4];
  }

  /** Returns pixels of the shrunk copy per pixel of the working image. */
  double scale() {
    return scale;
  }

  /** Returns the number of blocks across the page. */
  int count() {
    return values.length;
  }

  /** Returns the height of the page in pixels. */
  int height() {
    return height;
  }

  /** Returns the usual strength of a staff line in gray levels; near 0 on a page without staves. */
  double contrast() {
    return contrast;
  }

  /** Returns the line values of a block by height; not to be changed. */
  float[] block(int b) {
    return values[b];
  }

  /** Returns the value of a block at a height between pixels, 0 outside. */
  float at(int b, double y) {
    int i = (int) Math.floor(y);
    if (i < 0 || i + 1 >= height) {
      return 0;
    }
    float f = (float) (y - i);
    return values[b][i] * (1 - f) + values[b][i + 1] * f;
  }

  /** Tells whether a place is plain paper: no line, and nothing that could hide one. */
  boolean isBare(int b, double y) {
    int i = (int) Math.round(y);
    return i >= 0 && i < height && gray[b][i] > 250 - Math.max(8, 0.4 * contrast);
  }
}
