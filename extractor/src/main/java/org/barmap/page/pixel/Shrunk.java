package org.barmap.page.pixel;

import org.opencv.core.Mat;
import org.opencv.core.Rect;
import org.opencv.core.Size;
import org.opencv.imgproc.Imgproc;

/**
 * A picture made smaller by averaging.
 *
 * @param image the smaller picture
 * @param map from the picture to it
 */
public record Shrunk(Mat image, Homography map) {

  /** Rows made on one thread at a time. */
  private static final int BAND = 64;

  /**
   * Shrinks by about a factor.
   *
   * <p>By a whole one where that is near: averaging squares of pixels costs a tenth of averaging
   * parts of pixels. What doesn't fill a square at the right and lower edge is left out.
   */
  public static Shrunk of(Mat picture, double factor, WorkStep step, Mats scope) {
    if (factor <= 1) {
      return new Shrunk(picture, Homography.identity());
    }
    int whole = (int) Math.round(factor);
    if (whole > 1 && Math.min(picture.cols(), picture.rows()) >= whole) {
      Mat image = squares(picture, whole, step, scope);
      return new Shrunk(image, Homography.scale(1.0 / whole, 1.0 / whole));
    }
    Mat image = scope.mat();
    Imgproc.resize(picture, image, new Size(), 1 / factor, 1 / factor, Imgproc.INTER_AREA);
    return new Shrunk(
        image,
        Homography.scale(
            image.cols() / (double) picture.cols(), image.rows() / (double) picture.rows()));
  }

  /** Returns the means of squares; of one pixel at least, however small the picture is. */
  public static Mat squares(Mat picture, int side, WorkStep step, Mats scope) {
    Size size = new Size(Math.max(1, picture.cols() / side), Math.max(1, picture.rows() / side));
    int w = Math.min(picture.cols(), (int) size.width * side);
    int h = Math.min(picture.rows(), (int) size.height * side);
    Mat image = scope.keep(new Mat(size, picture.type()));
    step.spread(
        (image.rows() + BAND - 1) / BAND,
        i -> {
          try (Mats own = new Mats()) {
            int to = Math.min(image.rows(), (i + 1) * BAND);
            Mat rows = own.keep(image.rowRange(i * BAND, to));
            int end = Math.min(h, to * side);
            Mat inner =
                own.keep(picture.submat(new Rect(0, i * BAND * side, w, end - i * BAND * side)));
            Imgproc.resize(inner, rows, rows.size(), 0, 0, Imgproc.INTER_AREA);
          }
        });
    return image;
  }
}
