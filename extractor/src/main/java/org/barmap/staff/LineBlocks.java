package org.barmap.staff;

import java.util.Arrays;
import java.util.List;
import org.barmap.page.pixel.Mats;
import org.barmap.page.pixel.Shift;
import org.barmap.page.pixel.WorkStep;
import org.opencv.core.Core;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import org.opencv.core.Size;
import org.opencv.imgproc.Imgproc;

/**
 * How much each height of the page looks like a thin level line, in blocks of a few columns.
 *
 * <p>Measured on a copy shrunk to {@link StaffSettings.Lines#space} pixels a staff space, which is
 * enough to place a line to a fiftieth of a space; all its heights and blocks are in pixels of that
 * copy.
 *
 * <p>A height counts as line as far as it is darker than the paper both a little above and a little
 * below; thick things (beams, heads, rests) give nothing. Values run from 0 to 1.
 */
final class LineBlocks {

  private static final StaffSettings.Lines SET = StaffSettings.STANDARD.lines();

  /** Columns in one block; narrow enough that a line of any allowed slope stays sharp. */
  static final int WIDTH = 6;

  private final float[][] ridges;
  private final float[][] values;
  private final float[][] gray;
  private final double scale;
  private final int height;
  private final double contrast;
  private final float gain;
  private final double bare;

  private LineBlocks(
      float[][] ridges, float[][] gray, int height, double contrast, double scale, float gain) {
    this.scale = scale;
    this.ridges = ridges;
    this.values = scaled(ridges, gain);
    this.gain = gain;
    this.gray = gray;
    this.height = height;
    this.contrast = contrast;
    this.bare = SET.paper() - Math.max(SET.leastDarker(), SET.darker() * contrast);
  }

  /** Measures a working image with the given usual staff space. */
  static LineBlocks of(Mat gray, double workSpace) {
    // A whole number of columns makes a block: averaging those costs a fifth of averaging parts.
    int columns = (int) Math.max(WIDTH, Math.ceil(WIDTH * workSpace / SET.space()));
    double scale = WIDTH / (double) columns;
    double space = workSpace * scale;
    int blocks = Math.max(1, gray.cols() / columns);
    int height = (int) Math.round(gray.rows() * scale);
    float[][] level = levels(gray, Math.min(gray.cols(), blocks * columns), blocks, height);
    float[][] line = new float[blocks][height];
    float[] strongest = new float[blocks];
    int reach = Math.max(2, (int) Math.round(SET.reach() * space));
    WorkStep.STAVES.spread(
        blocks,
        b -> {
          ridge(level[b], reach, line[b]);
          strongest[b] = strongest(line[b], space);
        });
    java.util.Arrays.sort(strongest);
    double typical = strongest[(int) (blocks * SET.typical())];
    return new LineBlocks(line, level, height, typical, scale, gain(typical, SET.weakestLine()));
  }

  /** Returns the same, the usual strength of a line taken for no less than so many gray levels. */
  LineBlocks noWeaker(double weakest) {
    float other = gain(contrast, weakest);
    return other == gain ? this : new LineBlocks(ridges, gray, height, contrast, scale, other);
  }

  private static float gain(double typical, double weakest) {
    return (float) (1 / Math.max(weakest, Math.min(SET.strongestLine(), SET.full() * typical)));
  }

  private static float[][] scaled(float[][] ridges, float gain) {
    float[][] values = new float[ridges.length][];
    for (int b = 0; b < ridges.length; b++) {
      float[] line = ridges[b];
      float[] l = new float[line.length];
      for (int y = 0; y < l.length; y++) {
        l[y] = Math.min(1, line[y] * gain);
      }
      values[b] = l;
    }
    return values;
  }

  /** Heights a blurred one is made of, and what stands for no blur across. */
  private static final int BLURRED = 3;

  private static final double NO_BLUR = 0.01;

  /** Heights tried around a middle: two pixels up and down. */
  private static final int NEAR = 5;

  /** Blocks averaged together on one thread. */
  private static final int CHUNK = 32;

  /** Returns the mean gray of each block by height, a little smoothed along the height. */
  private static float[][] levels(Mat gray, int columns, int blocks, int height) {
    float[][] level = new float[blocks][height];
    int each = Math.max(1, columns / blocks);
    WorkStep.STAVES.spread(
        (blocks + CHUNK - 1) / CHUNK,
        i -> {
          int from = i * CHUNK;
          int to = Math.min(blocks, from + CHUNK);
          // A page narrower than one block is one block.
          int end = to == blocks ? columns : to * each;
          levels(gray, from * each, end, Arrays.asList(level).subList(from, to), height);
        });
    return level;
  }

  private static void levels(Mat gray, int left, int right, List<float[]> level, int height) {
    int blocks = level.size();
    try (Mats scope = new Mats()) {
      Mat narrow = scope.mat();
      Mat whole = scope.keep(gray.colRange(left, right));
      Imgproc.resize(whole, narrow, new Size(blocks, gray.rows()), 0, 0, Imgproc.INTER_AREA);
      Mat turned = scope.mat();
      Core.transpose(narrow, turned);
      if (height != gray.rows()) {
        Imgproc.resize(turned, turned, new Size(height, blocks), 0, 0, Imgproc.INTER_AREA);
      }
      Imgproc.GaussianBlur(turned, turned, new Size(BLURRED, 1), SET.blur(), NO_BLUR);
      Mat real = scope.mat();
      turned.convertTo(real, CvType.CV_32F);
      for (int b = 0; b < blocks; b++) {
        real.get(b, 0, level.get(b));
      }
    }
  }

  private static void ridge(float[] g, int reach, float[] out) {
    float[] above = new float[g.length];
    float[] below = new float[g.length];
    Shift.of(g, -reach, SET.paper(), above);
    Shift.of(g, reach, SET.paper(), below);
    for (int y = 0; y < g.length; y++) {
      out[y] = Math.max(0, Math.min(above[y], below[y]) - g[y]);
    }
  }

  /** Returns how strong a staff line is in a block: the second weakest line of its best comb. */
  private static float strongest(float[] line, double space) {
    int h = line.length;
    float[] near = line.clone();
    float[] moved = new float[h];
    for (int d = -1; d <= 1; d += 2) {
      Shift.of(line, d, 0, moved);
      for (int y = 0; y < h; y++) {
        near[y] = Math.max(near[y], moved[y]);
      }
    }
    float[] weakest = near.clone();
    float[] second = new float[h];
    java.util.Arrays.fill(second, Float.MAX_VALUE);
    for (int k = 1; k < Staff.LINES; k++) {
      Shift.of(near, (int) Math.round(k * space), 0, moved);
      for (int y = 0; y < h; y++) {
        second[y] = Math.min(second[y], Math.max(weakest[y], moved[y]));
        weakest[y] = Math.min(weakest[y], moved[y]);
      }
    }
    float top = 0;
    for (float v : second) {
      top = Math.max(top, v);
    }
    return top;
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

  /** Returns the value of a block at a whole height, 0 outside. */
  float at(int b, int y) {
    return y < 0 || y + 1 >= height ? 0 : values[b][y];
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

  /**
   * Tells whether another line runs along with one for more than a share of its length.
   *
   * @param from how far below it that may lie, negative above; pixels of the page
   * @param to and how far at most
   */
  boolean isBeside(LoneLine line, double from, double to, double share) {
    double block = WIDTH / scale;
    int first = (int) Math.max(0, line.left() / block);
    int last = (int) Math.min(values.length - 1.0, line.right() / block);
    float least = LoneSettings.STANDARD.follow().line();
    for (double d = from; d <= to; d += 1 / scale) {
      int seen = 0;
      for (int b = first; b <= last; b++) {
        int y = (int) Math.round((line.at((b + 0.5) * block) + d) * scale - 0.5);
        seen += Math.max(at(b, y), Math.max(at(b, y - 1), at(b, y + 1))) >= least ? 1 : 0;
      }
      if (seen > share * (last - first + 1)) {
        return true;
      }
    }
    return false;
  }

  /** Returns the most that five lines at a distance sum up to, their middle within two pixels. */
  double comb(int b, double middle, double space) {
    float[] v = values[b];
    double top = 0;
    double[] sum = new double[NEAR];
    for (int k = -2; k <= 2; k++) {
      double y = middle + k * space;
      int i = (int) Math.floor(y);
      float f = (float) (y - i);
      for (int d = 0; d < NEAR; d++) {
        int at = i + d - 2;
        if (at >= 0 && at + 1 < height) {
          sum[d] += v[at] * (1 - f) + v[at + 1] * f;
        }
      }
    }
    for (double all : sum) {
      top = Math.max(top, all);
    }
    return top;
  }

  /** Tells whether a place is plain paper: no line, and nothing that could hide one. */
  boolean isBare(int b, double y) {
    return isBare(b, (int) Math.round(y));
  }

  /** The same at a whole height. */
  boolean isBare(int b, int y) {
    return y >= 0 && y < height && gray[b][y] > bare;
  }
}
