package org.barmap.page.level;

import java.util.OptionalDouble;
import org.barmap.page.pixel.Mats;
import org.barmap.page.pixel.PageSettings;
import org.opencv.core.Core;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import org.opencv.core.Size;
import org.opencv.imgproc.Imgproc;

/** Finds where a picture of an opening falls into its two pages. */
public final class Gutter {

  private static final PageSettings.Gutter SET = PageSettings.STANDARD.gutter();

  private Gutter() {}

  /**
   * Returns the x of the gutter in an upright picture, empty when it shows one page.
   *
   * <p>No staff line runs across a gutter: near the middle there is a band, on the whole height,
   * without level lines, and there are many on both its sides.
   *
   * @param space staff space in pixels of the picture
   */
  static OptionalDouble find(Mat gray, double space) {
    if (!fits(gray.cols(), gray.rows()) || space <= 0) {
      return OptionalDouble.empty();
    }
    try (Mats scope = new Mats()) {
      return band(staffRows(gray, space, scope), space);
    }
  }

  /** Tells whether a picture is wide enough to show two pages. */
  public static boolean fits(double width, double height) {
    return Math.ceil(width) >= SET.leastAspect() * Math.ceil(height);
  }

  private static OptionalDouble band(Mat staves, double space) {
    double[] count = counts(staves);
    int n = count.length;
    double[] sorted = count.clone();
    java.util.Arrays.sort(sorted);
    double usual = sorted[(int) (n * SET.usual())];
    int least =
        (int)
            Math.max(
                SET.leastWidth(), Math.ceil(SET.leastSpaces() * space / LineField.SET.shrink()));
    int bestFrom = -1;
    int bestLength = 0;
    int from = -1;
    for (int x = (int) (SET.from() * n); x <= (int) (SET.to() * n); x++) {
      boolean empty = count[x] < SET.empty() * usual;
      if (empty && from < 0) {
        from = x;
      }
      if (from >= 0 && (!empty || x == (int) (SET.to() * n))) {
        if (x - from > bestLength) {
          bestLength = x - from;
          bestFrom = from;
        }
        from = -1;
      }
    }
    boolean lines =
        usual >= SET.lines()
            && filled(count, 0, bestFrom)
            && filled(count, bestFrom + bestLength, n);
    return bestLength >= least && lines && !isCrossed(staves, bestFrom, bestLength)
        ? OptionalDouble.of((bestFrom + bestLength / 2.0) * LineField.SET.shrink())
        : OptionalDouble.empty();
  }

  private static boolean filled(double[] count, int from, int to) {
    int lines = 0;
    for (int x = Math.max(0, from); x < to; x++) {
      lines += count[x] >= SET.lines() ? 1 : 0;
    }
    return lines > SET.filled() * (to - from);
  }

  /** Tells whether a staff runs on across a band and a good way beyond it on both sides. */
  private static boolean isCrossed(Mat staves, int from, int length) {
    int beyond = Math.max(SET.beyond(), length);
    int left = Math.max(0, from - beyond);
    int right = Math.min(staves.cols(), from + length + beyond);
    try (Mats scope = new Mats()) {
      Mat band = scope.mat();
      // Near the top and bottom it may be the paper's own edge.
      int edge = staves.rows() / SET.edge();
      Mat inner = scope.keep(staves.submat(edge, staves.rows() - edge, left, right));
      // A staff may lean a little on its way.
      Imgproc.dilate(inner, band, scope.keep(Mat.ones(SET.lean(), 1, CvType.CV_8U)));
      Mat sum = scope.mat();
      Core.reduce(band, sum, 1, Core.REDUCE_SUM, CvType.CV_32S);
      return Core.minMaxLoc(sum).maxVal > SET.crossed() * (right - left);
    }
  }

  /** Counts, for each few columns, the heights at which four or five level lines stand together. */
  private static double[] counts(Mat staves) {
    try (Mats scope = new Mats()) {
      Mat sum = scope.mat();
      Core.reduce(staves, sum, 0, Core.REDUCE_SUM, CvType.CV_32S);
      int[] values = new int[staves.cols()];
      sum.get(0, 0, values);
      return java.util.Arrays.stream(values).asDoubleStream().toArray();
    }
  }

  /** Marks with 1 where four or five level lines stand together. */
  private static Mat staffRows(Mat gray, double space, Mats scope) {
    Mat narrow = scope.mat();
    int w = Math.max(1, gray.cols() / LineField.SET.shrink());
    Imgproc.resize(gray, narrow, new Size(w, gray.rows()), 0, 0, Imgproc.INTER_AREA);
    Imgproc.blur(narrow, narrow, new Size(SET.across(), 1));
    Mat mean = scope.mat();
    Imgproc.blur(narrow, mean, new Size(1, SET.mean()));
    Mat line = scope.mat();
    Core.subtract(mean, narrow, line);
    // Relative to the light, so that a shadow at the gutter makes no lines and hides none.
    Core.divide(line, mean, line, SET.paper(), CvType.CV_8U);
    Imgproc.threshold(line, line, SET.line(), 1, Imgproc.THRESH_BINARY);
    Imgproc.dilate(line, line, scope.keep(Mat.ones(SET.lean(), 1, CvType.CV_8U)));
    return fiveLines(line, space, scope);
  }

  private static Mat fiveLines(Mat line, double space, Mats scope) {
    int reach = (int) Math.ceil(2 * space) + 1;
    int rows = line.rows() - 2 * reach;
    if (rows < 1) {
      return scope.keep(Mat.zeros(1, line.cols(), CvType.CV_8U));
    }
    Mat sum = scope.keep(Mat.zeros(rows, line.cols(), CvType.CV_8U));
    for (int k = -2; k <= 2; k++) {
      int from = reach + (int) Math.round(k * space);
      Core.add(sum, scope.keep(line.rowRange(from, from + rows)), sum);
    }
    Imgproc.threshold(sum, sum, SET.together(), 1, Imgproc.THRESH_BINARY);
    return sum;
  }
}
