package org.barmap.page.level;

import java.util.List;
import org.barmap.map.Point;
import org.barmap.page.pixel.Mats;
import org.barmap.page.pixel.PageSettings;
import org.barmap.page.pixel.Shrunk;
import org.barmap.page.pixel.WorkStep;
import org.opencv.core.Core;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import org.opencv.core.Scalar;
import org.opencv.core.Size;
import org.opencv.imgproc.Imgproc;

/** Evens out shadow and paper colour: paper comes out near white everywhere, ink stays dark. */
public final class Light {

  private static final PageSettings.Light SET = PageSettings.STANDARD.light();

  private static final int GRAYS = 256;

  private Light() {}

  /**
   * Flattens a gray page in place.
   *
   * @param space staff space in pixels; the background is what is brightest within about three
   */
  public static void flatten(Mat gray, double space) {
    try (Mats scope = new Mats()) {
      Mat small = Shrunk.squares(gray, SET.shrink(), WorkStep.LIGHT, scope);
      int reach =
          Math.max(SET.leastReach(), (int) Math.round(SET.reach() * space / SET.shrink())) | 1;
      Mat kernel =
          scope.keep(Imgproc.getStructuringElement(Imgproc.MORPH_RECT, new Size(reach, reach)));
      Mat paper = scope.mat();
      Imgproc.morphologyEx(small, paper, Imgproc.MORPH_CLOSE, kernel);
      Imgproc.GaussianBlur(paper, paper, new Size(0, 0), reach * SET.blur());
      if (Core.minMaxLoc(paper).minVal > SET.clean()) {
        return; // a clean scan: nothing to even out
      }
      // Where the picture is black on a broad front there is no paper to compare with.
      Core.max(paper, new Scalar(SET.darkest()), paper);
      Mat full = scope.mat();
      Imgproc.resize(paper, full, gray.size(), 0, 0, Imgproc.INTER_LINEAR);
      Core.divide(gray, full, gray, SET.paper(), CvType.CV_8U);
    }
    deepen(gray);
  }

  /** Makes everything outside the paper white; corners in pixels of the image. */
  public static void whitenOutside(Mat gray, List<Point> outline) {
    View.fillOutside(gray, outline, SET.paper());
  }

  /** Stretches pale ink: its darkest hundredth is brought down to near black. */
  private static void deepen(Mat gray) {
    try (Mats scope = new Mats()) {
      Mat sample = scope.mat();
      Imgproc.resize(
          gray,
          sample,
          new Size(gray.cols() / SET.sample() + 1, gray.rows() / SET.sample() + 1),
          0,
          0,
          Imgproc.INTER_NEAREST);
      byte[] values = new byte[(int) sample.total()];
      sample.get(0, 0, values);
      int[] count = new int[GRAYS];
      for (byte v : values) {
        count[v & 0xff]++;
      }
      int ink = 0;
      int seen = 0;
      while (ink < 255 && (seen += count[ink]) < values.length / SET.inkShare()) {
        ink++;
      }
      if (ink > SET.blackEnough() && ink < SET.noInk()) {
        double gain = (double) (SET.paper() - SET.ink()) / (SET.paper() - ink);
        gray.convertTo(gray, CvType.CV_8U, gain, SET.paper() - SET.paper() * gain);
      }
    }
  }
}
