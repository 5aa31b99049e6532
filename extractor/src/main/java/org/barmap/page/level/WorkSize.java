package org.barmap.page.level;

import org.barmap.page.pixel.Mats;
import org.barmap.page.pixel.PageSettings;
import org.opencv.core.Mat;
import org.opencv.core.Size;
import org.opencv.imgproc.Imgproc;

/**
 * How much a picture is scaled for reading.
 *
 * @param scale working pixels per pixel of the file
 * @param space staff space in working pixels, 0 when there are no staves
 */
public record WorkSize(double scale, double space) {

  private static final PageSettings.Size SET = PageSettings.STANDARD.size();

  /** Chooses the scale from the staff space in pixels of the file. */
  public static WorkSize of(Mat picture, double space) {
    if (space <= 0) {
      return new WorkSize(Math.min(1, SET.plain() / Math.max(picture.cols(), picture.rows())), 0);
    }
    double scale =
        space >= SET.leastSpace() && space <= SET.mostSpace() ? 1 : SET.usualSpace() / space;
    scale =
        Math.min(scale, Math.max(SET.leastScale(), Math.sqrt(SET.mostPixels() / picture.total())));
    return new WorkSize(scale, space * scale);
  }

  /** Returns the picture scaled. */
  public Mat apply(Mat picture, Mats scope) {
    Mat scaled = scope.mat();
    if (scale == 1) {
      picture.copyTo(scaled);
      return scaled;
    }
    Size size =
        new Size(
            Math.max(1, Math.round(picture.cols() * scale)),
            Math.max(1, Math.round(picture.rows() * scale)));
    Imgproc.resize(
        picture, scaled, size, 0, 0, scale < 1 ? Imgproc.INTER_AREA : Imgproc.INTER_CUBIC);
    return scaled;
  }
}
