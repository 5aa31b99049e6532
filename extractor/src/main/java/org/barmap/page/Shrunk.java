package org.barmap.page;

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
record Shrunk(Mat image, Homography map) {

  /**
   * Shrinks by about a factor.
   *
   * <p>By a whole one where that is near: averaging squares of pixels costs a tenth of averaging
   * parts of pixels. What doesn't fill a square at the right and lower edge is left out.
   */
  static Shrunk of(Mat picture, double factor, Mats scope) {
    if (factor <= 1) {
      return new Shrunk(picture, Homography.identity());
    }
    int whole = (int) Math.round(factor);
    if (whole > 1 && Math.min(picture.cols(), picture.rows()) >= whole) {
      Mat image = squares(picture, whole, scope);
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
  static Mat squares(Mat picture, int side, Mats scope) {
    Size size = new Size(Math.max(1, picture.cols() / side), Math.max(1, picture.rows() / side));
    int w = Math.min(picture.cols(), (int) size.width * side);
    int h = Math.min(picture.rows(), (int) size.height * side);
    Mat image = scope.mat();
    Mat inner = scope.keep(picture.submat(new Rect(0, 0, w, h)));
    Imgproc.resize(inner, image, size, 0, 0, Imgproc.INTER_AREA);
    return image;
  }
}
