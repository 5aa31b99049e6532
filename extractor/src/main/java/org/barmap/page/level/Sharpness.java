package org.barmap.page.level;

import java.util.Arrays;
import org.barmap.page.pixel.Mats;
import org.barmap.page.pixel.PageSettings;
import org.barmap.page.pixel.WorkStep;
import org.opencv.core.Core;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import org.opencv.core.Size;
import org.opencv.imgproc.Imgproc;

/** Measures blur. */
public final class Sharpness {

  private static final PageSettings.Sharp SET = PageSettings.STANDARD.sharp();

  private static final int GRAYS = 256;

  /** Slopes told apart. */
  private static final int SLOPES = 512;

  /** Heights a blurred one is made of, and what stands for no blur across. */
  private static final int BLURRED = 3;

  private static final double NO_BLUR = 0.01;

  /** Columns looked at together, and one band in how many is looked at. */
  private static final int BAND = 48;

  private static final int EVERY = 6;

  private Sharpness() {}

  /** Tells whether a working image is too blurred to read, given its staff space (0 for none). */
  public static boolean isBlurred(Mat work, double space) {
    return space > 0 && radius(work) > SET.ofSpace() * space;
  }

  /** Tells whether nothing is printed on a page, its light evened out. */
  public static boolean isEmpty(Mat work) {
    try (Mats scope = new Mats()) {
      Mat smooth = scope.mat();
      Imgproc.medianBlur(work, smooth, SET.smooth());
      Core.MinMaxLocResult range = Core.minMaxLoc(smooth);
      return range.maxVal - range.minVal < SET.faintest();
    }
  }

  /** Tells whether a picture not yet straightened is too blurred for anything on it to be read. */
  public static boolean isHopeless(Mat picture) {
    return radius(picture)
        > Math.max(SET.leastHopeless(), SET.ofSize() * Math.sqrt(picture.total()));
  }

  /**
   * Returns the radius (sigma) of the blur in pixels, judged by the steepest edges: the share of
   * the way from ink to paper covered within one pixel is about 0.4 by the radius.
   */
  static double radius(Mat whole) {
    try (Mats scope = new Mats()) {
      Mat gray = middle(whole, scope);
      int band = Math.min(BAND, gray.cols());
      int bands = (gray.cols() - band) / (EVERY * band) + 1;
      int[][] steeps = new int[bands][SLOPES];
      int[][] grays = new int[bands][GRAYS];
      WorkStep.SHARPNESS.spread(
          bands,
          i -> {
            Mat part = gray.colRange(i * EVERY * band, i * EVERY * band + band);
            count(part, steeps[i], grays[i]);
            part.release();
          });
      int[] steep = sum(steeps);
      int[] values = sum(grays);
      int seen = Arrays.stream(values).sum();
      double ink = quantile(values, SET.ink() * seen);
      double paper = quantile(values, SET.paper() * seen);
      double edges = quantile(steep, SET.edges() * seen);
      return SET.radius() * Math.max(SET.leastContrast(), paper - ink) / Math.max(1, edges);
    }
  }

  private static int[] sum(int[][] counts) {
    int[] sum = new int[counts[0].length];
    for (int[] own : counts) {
      for (int i = 0; i < sum.length; i++) {
        sum[i] += own[i];
      }
    }
    return sum;
  }

  /** Counts slopes and gray values. */
  private static void count(Mat gray, int[] steep, int[] values) {
    try (Mats scope = new Mats()) {
      Mat level = scope.mat();
      Imgproc.GaussianBlur(gray, level, new Size(1, BLURRED), NO_BLUR, SET.level());
      Mat edge = scope.mat();
      Imgproc.Sobel(level, edge, CvType.CV_16S, 0, 1, 1, 0.5);
      short[] e = new short[(int) edge.total()];
      edge.get(0, 0, e);
      byte[] g = new byte[e.length];
      gray.get(0, 0, g);
      for (int i = 0; i < e.length; i++) {
        steep[Math.min(SLOPES - 1, Math.abs(e[i]))]++;
        values[g[i] & 0xff]++;
      }
    }
  }

  /** Returns the middle of a large picture; small ones as they are. */
  private static Mat middle(Mat whole, Mats scope) {
    if (whole.total() < SET.enough()) {
      return whole;
    }
    double share = Math.sqrt(SET.enough() / whole.total());
    int w = (int) (whole.cols() * share);
    int h = (int) (whole.rows() * share);
    int x = (whole.cols() - w) / 2;
    int y = (whole.rows() - h) / SET.above();
    return scope.keep(whole.submat(y, y + h, x, x + w));
  }

  private static double quantile(int[] count, double rank) {
    long sum = 0;
    for (int v = 0; v < count.length; v++) {
      sum += count[v];
      if (sum > rank) {
        return v;
      }
    }
    return count.length - 1.0;
  }
}
