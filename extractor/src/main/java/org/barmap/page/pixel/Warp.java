package org.barmap.page.pixel;

import org.opencv.core.Mat;
import org.opencv.core.Scalar;
import org.opencv.imgproc.Imgproc;

/** Draws a picture through a homography, bands of rows on all processors. */
public final class Warp {

  /** Rows drawn on one thread at a time. */
  private static final int BAND = 128;

  private Warp() {}

  /**
   * Returns the picture drawn.
   *
   * @param map from the picture to what is drawn, both from the edges of pixels
   * @param border what OpenCV takes for pixels outside the picture; white where constant
   * @param step whose work this is
   */
  public static Mat draw(
      Mat picture, Homography map, int width, int height, int border, WorkStep step, Mats scope) {
    Mat out = scope.keep(new Mat(height, width, picture.type()));
    step.spread(
        (height + BAND - 1) / BAND,
        i -> {
          try (Mats own = new Mats()) {
            int top = i * BAND;
            Mat rows = own.keep(out.rowRange(top, Math.min(height, top + BAND)));
            Mat matrix = own.keep(map.then(Homography.shift(0, -top)).forPixelCentres());
            Imgproc.warpPerspective(
                picture, rows, matrix, rows.size(), Imgproc.INTER_LINEAR, border, new Scalar(255));
          }
        });
    return out;
  }
}
