package org.barmap.page;

import java.util.List;
import org.opencv.core.Core;
import org.opencv.core.Mat;
import org.opencv.core.Scalar;
import org.opencv.core.Size;
import org.opencv.imgproc.Imgproc;

/** Makes upright page images from the picture in a file. */
final class Upright {

  /** Long side of the picture the page is judged on. */
  private static final double JUDGED = 1800;

  private static final double USUAL_SPACE = 16;
  private static final double LEAST_SPACE = 11.5;
  private static final double MOST_SPACE = 22;

  /** Long side of a working image of a page without staves. */
  private static final double PLAIN = 2200;

  /** A smaller slope is left to the staff tracing. */
  private static final double LEVEL = 0.01;

  private Upright() {}

  /** Returns the pages in a picture, usually one; frees the picture. */
  static List<PageResult> pages(String source, int index, Mat picture) {
    try (Mats scope = new Mats()) {
      scope.keep(picture);
      double shrink = Math.min(1, JUDGED / Math.max(picture.cols(), picture.rows()));
      Mat judged = picture;
      if (shrink < 1) {
        judged = scope.mat();
        Imgproc.resize(picture, judged, new Size(), shrink, shrink, Imgproc.INTER_AREA);
      }
      LineField lines = LineField.measure(judged);
      double space = lines.space() / shrink;
      Homography level =
          Math.abs(lines.slope()) > LEVEL
              ? Homography.turn(-Math.atan(lines.slope()))
              : Homography.identity();
      PageImage page = make(source, index, picture, level, space);
      return List.of(new PageResult.Loaded(page, List.of()));
    }
  }

  /** Warps, scales and flattens one page. */
  private static PageImage make(
      String source, int index, Mat picture, Homography level, double space) {
    double scale = scale(space, Math.max(picture.cols(), picture.rows()));
    try (Mats scope = new Mats()) {
      Mat scaled = scope.mat();
      if (scale == 1) {
        picture.copyTo(scaled);
      } else {
        Imgproc.resize(
            picture,
            scaled,
            new Size(Math.round(picture.cols() * scale), Math.round(picture.rows() * scale)),
            0,
            0,
            scale < 1 ? Imgproc.INTER_AREA : Imgproc.INTER_CUBIC);
      }
      Homography toScaled =
          Homography.scale(
              scaled.cols() / (double) picture.cols(), scaled.rows() / (double) picture.rows());
      Homography toWork = toScaled;
      Mat work = scaled;
      if (!level.isIdentity()) {
        Frame frame = Frame.of(level, scaled.cols(), scaled.rows());
        work = scope.mat();
        Mat matrix = scope.keep(frame.map().forPixelCentres());
        Imgproc.warpPerspective(
            scaled,
            work,
            matrix,
            new Size(frame.width(), frame.height()),
            Imgproc.INTER_LINEAR,
            Core.BORDER_CONSTANT,
            new Scalar(255));
        toWork = toScaled.then(frame.map());
      }
      double workSpace = space * scale;
      Light.flatten(work, workSpace > 0 ? workSpace : USUAL_SPACE);
      return new PageImage(
          source, index, picture.cols(), picture.rows(), scope.release(work), toWork, workSpace);
    }
  }

  private static double scale(double space, int longSide) {
    if (space <= 0) {
      return Math.min(1, PLAIN / longSide);
    }
    return space >= LEAST_SPACE && space <= MOST_SPACE ? 1 : USUAL_SPACE / space;
  }
}
