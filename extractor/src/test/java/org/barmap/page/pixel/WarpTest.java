package org.barmap.page.pixel;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.opencv.core.Core;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import org.opencv.core.Scalar;
import org.opencv.core.Size;
import org.opencv.imgproc.Imgproc;

class WarpTest {

  /** Source outside the project: OpenCV's own warpPerspective, which computes every pixel. */
  @Test
  void drawsWhatOpenCvDraws() {
    try (Mats scope = new Mats()) {
      Mat picture = scope.keep(new Mat(500, 700, CvType.CV_8U));
      Core.randu(picture, 0, 256);
      Imgproc.GaussianBlur(picture, picture, new Size(0, 0), 3);
      Core.normalize(picture, picture, 0, 255, Core.NORM_MINMAX);
      Homography map = new Homography(new double[] {.98, .02, 5, -.03, 1.1, 7, 4e-5, 2e-5, 1});
      for (int border : new int[] {Core.BORDER_CONSTANT, Core.BORDER_REPLICATE}) {
        Mat own = Warp.draw(picture, map, 693, 541, border, WorkStep.UPRIGHT, scope);
        Mat theirs = scope.mat();
        Mat matrix = scope.keep(map.forPixelCentres());
        Imgproc.warpPerspective(
            picture,
            theirs,
            matrix,
            new Size(693, 541),
            Imgproc.INTER_LINEAR,
            border,
            new Scalar(255));
        Mat apart = scope.mat();
        Core.absdiff(own, theirs, apart);
        assertThat(Core.mean(apart).val[0]).isLessThan(0.05);
        assertThat(Core.minMaxLoc(apart).maxVal).isLessThan(12);
        Core.absdiff(theirs, scope.keep(new Mat(541, 693, CvType.CV_8U, new Scalar(255))), apart);
        assertThat(Core.mean(apart).val[0]).isGreaterThan(20);
      }
    }
  }
}
