package org.barmap.page.level;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.barmap.page.pixel.OpenCv;
import org.junit.jupiter.api.Test;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import org.opencv.core.Rect;
import org.opencv.core.Scalar;

class LineFieldTest {

  /** A page of rests only: their thick bars, almost a space high, outweigh the thin lines. */
  @Test
  void thickRestBarsDoNotHideTheStaffLines() {
    OpenCv.load();
    Mat page = new Mat(1900, 1500, CvType.CV_8U, new Scalar(255));
    int space = 15;
    for (int staff = 0; staff < 7; staff++) {
      int top = 300 + 220 * staff;
      for (int line = 0; line < 5; line++) {
        fill(page, 100, top + line * space, 1300, 2);
      }
      for (int bar = 0; bar < 3; bar++) {
        fill(page, 160 + 420 * bar, top + space + 9, 380, 14);
      }
    }
    assertThat(LineField.measure(page).space()).isCloseTo(space, within(0.5));
    page.release();
  }

  private static void fill(Mat page, int x, int y, int width, int height) {
    Mat part = page.submat(new Rect(x, y, width, height));
    part.setTo(new Scalar(0));
    part.release();
  }
}
