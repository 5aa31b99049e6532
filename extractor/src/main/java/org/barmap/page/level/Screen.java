package org.barmap.page.level;

import org.barmap.page.pixel.PageSettings;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import org.opencv.imgproc.Imgproc;

/**
 * Takes away the screen of a copy of two levels whose gray paper became dots: each dot stands
 * alone, as no ink does, and between the dots no line is seen.
 */
public final class Screen {

  private static final PageSettings.Screens SET = PageSettings.STANDARD.screens();

  private Screen() {}

  /** Smooths a gray picture in place where it has a screen. */
  public static void smooth(Mat picture) {
    if (picture.type() == CvType.CV_8UC1 && isScreened(picture)) {
      Imgproc.medianBlur(picture, picture, SET.around());
    }
  }

  /** Tells whether much of what is dark are pixels that touch no other. */
  static boolean isScreened(Mat picture) {
    int width = picture.cols();
    byte[] over = new byte[width];
    byte[] row = new byte[width];
    byte[] under = new byte[width];
    int dark = 0;
    int alone = 0;
    for (int y = 1; y + 1 < picture.rows(); y += SET.everyRow()) {
      picture.get(y - 1, 0, over);
      picture.get(y, 0, row);
      picture.get(y + 1, 0, under);
      for (int x = 1; x + 1 < width; x++) {
        if (isDark(row[x])) {
          dark++;
          boolean beside = isDark(row[x - 1]) || isDark(row[x + 1]);
          alone += beside || isDark(over[x]) || isDark(under[x]) ? 0 : 1;
        }
      }
    }
    return alone > SET.alone() * dark;
  }

  private static boolean isDark(byte pixel) {
    return (pixel & 0xff) < SET.dark();
  }
}
