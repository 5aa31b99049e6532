package org.barmap.staff;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.barmap.page.pixel.OpenCv;
import org.junit.jupiter.api.Test;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import org.opencv.core.Rect;
import org.opencv.core.Scalar;

/** Almost every staff begins with a clef (common practice). */
class UpsideDownTest {

  /** Two staves with blocks of ink like clefs, some pixels wide, at both ends. */
  private static boolean turned(int left, int right) {
    OpenCv.load();
    Mat page = new Mat(400, 1000, CvType.CV_8U, new Scalar(255));
    double[] space = new double[(int) (1000 / Staff.STEP) + 2];
    java.util.Arrays.fill(space, 10);
    Staff[] staves = new Staff[2];
    for (int i = 0; i < 2; i++) {
      int y = 100 + 150 * i;
      fill(page, 10 + 8, y - 18, left);
      fill(page, 990 - 35, y - 18, right);
      double[] middle = new double[space.length];
      java.util.Arrays.fill(middle, y);
      staves[i] = new Staff(10, 990, middle, space, 0);
    }
    boolean is = UpsideDown.is(Pixels.of(page), List.of(staves));
    page.release();
    return is;
  }

  private static void fill(Mat page, int x, int y, int width) {
    Mat part = page.submat(new Rect(x, y, width, 36));
    part.setTo(new Scalar(0));
    part.release();
  }

  @Test
  void clefsAtTheEndsOnlyMeanATurnedPage() {
    assertThat(turned(1, 8)).isTrue();
    assertThat(turned(8, 1)).isFalse();
  }

  /** The staff runs over the gutter up to the facing page's clef. */
  @Test
  void clefsAtBothEndsAreTheFacingPages() {
    assertThat(turned(8, 25)).isFalse();
  }
}
