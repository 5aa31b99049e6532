package org.barmap.page.level;

import static org.assertj.core.api.Assertions.assertThat;

import org.barmap.page.pixel.OpenCv;
import org.junit.jupiter.api.Test;
import org.opencv.core.Core;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import org.opencv.core.Scalar;

class ScreenTest {

  /** A page with a line of ink, its paper dots that stand alone where there is a screen. */
  private static Mat page(boolean screened) {
    OpenCv.load();
    Mat page = new Mat(210, 300, CvType.CV_8U, new Scalar(255));
    for (int y = 0; y < page.rows() && screened; y++) {
      for (int x = y % 3; x < page.cols(); x += 3) {
        if (y % 2 == 0) {
          page.put(y, x, new byte[] {0});
        }
      }
    }
    page.submat(100, 106, 20, 280).setTo(new Scalar(0));
    return page;
  }

  @Test
  void paperTurnedIntoDotsIsPaperAgain() {
    Mat page = page(true);
    assertThat(Screen.isScreened(page)).isTrue();
    Screen.smooth(page);
    assertThat(Core.countNonZero(page.submat(10, 90, 10, 290))).isEqualTo(80 * 280);
    assertThat(Core.countNonZero(page.submat(101, 105, 30, 270))).isZero();
  }

  @Test
  void anyOtherPageStaysAsItIs() {
    Mat page = page(false);
    Mat before = page.clone();
    Screen.smooth(page);
    assertThat(Core.norm(page, before)).isZero();
  }
}
