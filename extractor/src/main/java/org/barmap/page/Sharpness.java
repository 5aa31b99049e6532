package org.barmap.page;

import org.opencv.core.CvType;
import org.opencv.core.Mat;
import org.opencv.core.Size;
import org.opencv.imgproc.Imgproc;

/** Measures blur. */
final class Sharpness {

  private Sharpness() {}

  /**
   * Returns how steep the steepest edges of a page are: the share of the way from ink to paper
   * covered within one pixel across an edge. Sharp pages reach 0.3 and more; blurred with a radius
   * (sigma) of r pixels gives about 0.4 / r.
   */
  static double measure(Mat gray) {
    try (Mats scope = new Mats()) {
      Mat level = scope.mat();
      Imgproc.GaussianBlur(gray, level, new Size(1, 3), 0.01, 0.6);
      Mat edge = scope.mat();
      Imgproc.Sobel(level, edge, CvType.CV_16S, 0, 1, 1, 0.5);
      short[] e = new short[(int) edge.total()];
      edge.get(0, 0, e);
      byte[] g = new byte[e.length];
      gray.get(0, 0, g);
      int[] steep = new int[512];
      int[] values = new int[256];
      for (int i = 0; i < e.length; i += 3) {
        steep[Math.min(511, Math.abs(e[i]))]++;
        values[g[i] & 0xff]++;
      }
      int seen = e.length / 3;
      double ink = quantile(values, 0.01 * seen);
      double paper = quantile(values, 0.6 * seen);
      double edges = quantile(steep, 0.995 * seen);
      return edges / Math.max(20, paper - ink);
    }
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
