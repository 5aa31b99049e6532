package org.barmap.page.level;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.barmap.page.pixel.FacingSettings;
import org.barmap.page.pixel.Mats;
import org.barmap.page.pixel.PageSettings;
import org.opencv.core.Core;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import org.opencv.core.Size;
import org.opencv.imgproc.Imgproc;

/**
 * Where five level lines stand together in an upright picture, in square cells of {@link #CELL}
 * pixels.
 */
final class StaffRows {

  /** Side of a cell, pixels of the picture. */
  static final int CELL = LineField.SET.shrink();

  private static final FacingSettings SET = PageSettings.STANDARD.facing();

  private final int rows;
  private final int cols;
  private final int top;
  private final double space;
  private final byte[] lines;

  private StaffRows(int rows, int cols, int top, double space, byte[] lines) {
    this.rows = rows;
    this.cols = cols;
    this.top = top;
    this.space = space;
    this.lines = lines;
  }

  /**
   * Looks at a picture.
   *
   * @param space staff space in pixels of the picture
   */
  static StaffRows of(Mat gray, double space) {
    try (Mats scope = new Mats()) {
      Mat narrow = scope.mat();
      int w = Math.max(1, gray.cols() / CELL);
      Imgproc.resize(gray, narrow, new Size(w, gray.rows()), 0, 0, Imgproc.INTER_AREA);
      Imgproc.blur(narrow, narrow, new Size(SET.across(), 1));
      Mat mean = scope.mat();
      Imgproc.blur(narrow, mean, new Size(1, SET.mean()));
      Mat line = scope.mat();
      Core.subtract(mean, narrow, line);
      Mat seen = scope.mat();
      Imgproc.threshold(line, seen, SET.faintest(), 1, Imgproc.THRESH_BINARY);
      // Relative to the light, so that a shadow at the gutter makes no lines and hides none.
      Core.divide(line, mean, line, SET.paper(), CvType.CV_8U);
      Imgproc.threshold(line, line, SET.line(), 1, Imgproc.THRESH_BINARY);
      Core.min(line, seen, line);
      Imgproc.dilate(line, line, scope.keep(Mat.ones(SET.lean(), 1, CvType.CV_8U)));
      return cells(line, space, scope);
    }
  }

  private static StaffRows cells(Mat line, double space, Mats scope) {
    int reach = (int) Math.ceil(2 * space) + 1;
    int rows = (line.rows() - 2 * reach) / CELL;
    int cols = line.cols();
    if (rows < 1) {
      return new StaffRows(0, cols, 0, space / CELL, new byte[0]);
    }
    Mat sum = scope.keep(Mat.zeros(rows * CELL, cols, CvType.CV_8U));
    for (int k = -2; k <= 2; k++) {
      int from = reach + (int) Math.round(k * space);
      Core.add(sum, scope.keep(line.rowRange(from, from + rows * CELL)), sum);
    }
    byte[] all = new byte[rows * CELL * cols];
    sum.get(0, 0, all);
    byte[] most = new byte[rows * cols];
    for (int y = 0; y < rows * CELL; y++) {
      int to = y / CELL * cols;
      for (int x = 0; x < cols; x++) {
        most[to + x] = (byte) Math.max(most[to + x], all[y * cols + x]);
      }
    }
    return new StaffRows(rows, cols, reach, space / CELL, most);
  }

  /** Forgets what is seen at a row beyond the paper: a turned picture's border drawn on. */
  void keep(int y, double fromPixel, double toPixel) {
    int from = Math.min(cols, Math.max(0, (int) Math.ceil(fromPixel / CELL)));
    int to = Math.min(cols, Math.max(from, (int) Math.floor(toPixel / CELL)));
    Arrays.fill(lines, y * cols, y * cols + from, (byte) 0);
    Arrays.fill(lines, y * cols + to, (y + 1) * cols, (byte) 0);
  }

  int rows() {
    return rows;
  }

  int cols() {
    return cols;
  }

  /** Returns the staff space in cells. */
  double space() {
    return space;
  }

  /** Returns the height of a row's middle in pixels of the picture. */
  double height(int y) {
    return top + (y + 0.5) * CELL;
  }

  /** Returns how many of five lines stand at a cell; none outside the picture. */
  int lines(int x, int y) {
    return x < 0 || x >= cols || y < 0 || y >= rows ? 0 : lines[y * cols + x];
  }

  /** Tells whether a staff is seen at a cell. */
  boolean isStaff(int x, int y) {
    return lines(x, y) >= SET.together();
  }

  /** Returns how far a leaning column has moved at a row from where it is at half the height. */
  int moved(double slope, int y) {
    return (int) Math.round(slope * (y - rows / 2.0));
  }

  /**
   * Returns in how many rows each column shows a staff, on average, not only for a stem's length.
   */
  double seen(double leastSpaces) {
    int seen = 0;
    int run = 0;
    for (int at = 0; at <= lines.length; at++) {
      boolean on = at < lines.length && lines[at] >= SET.together();
      if (!on || at % cols == 0) {
        seen += run >= leastSpaces * space ? run : 0;
        run = 0;
      }
      run += on ? 1 : 0;
    }
    return seen / (double) Math.max(1, cols);
  }

  /** Counts the rows with a staff along each leaning column. */
  int[] counts(double slope) {
    int[] counts = new int[cols];
    for (int y = 0; y < rows; y++) {
      int moved = moved(slope, y);
      int to = Math.min(cols, cols - moved);
      for (int x = Math.max(0, -moved); x < to; x++) {
        counts[x] += lines[y * cols + x + moved] >= SET.together() ? 1 : 0;
      }
    }
    return counts;
  }

  /** Puts rows that stand together into one staff each: the first row of each. */
  List<Integer> staves(boolean[] seen) {
    List<Integer> staves = new ArrayList<>();
    int last = Integer.MIN_VALUE / 2;
    for (int y = 0; y < seen.length; y++) {
      if (seen[y]) {
        if (y - last > SET.apart() * space) {
          staves.add(y);
        }
        last = y;
      }
    }
    return staves;
  }
}
