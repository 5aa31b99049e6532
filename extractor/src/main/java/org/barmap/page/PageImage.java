package org.barmap.page;

import org.barmap.map.Point;
import org.barmap.page.pixel.Homography;
import org.barmap.page.pixel.Mats;
import org.opencv.core.Core;
import org.opencv.core.Mat;

/**
 * One upright page: a gray working image and the map between it and the pixels of the given file.
 *
 * <p>The working image is 8-bit gray, ink dark on light paper, light flattened, staff lines about
 * level, and scaled so that a staff space is some 11 to 22 pixels. It holds native memory: close
 * it.
 */
public final class PageImage implements AutoCloseable {

  private final String source;
  private final int indexInSource;
  private final int width;
  private final int height;
  private Homography toWork;
  private Homography toFile;
  private final double staffSpace;
  private final Mats scope = new Mats();
  private final Mat gray;

  PageImage(
      String source,
      int indexInSource,
      int width,
      int height,
      Mat gray,
      Homography toWork,
      double staffSpace) {
    this.source = source;
    this.indexInSource = indexInSource;
    this.width = width;
    this.height = height;
    this.gray = scope.keep(gray);
    this.toWork = toWork;
    this.toFile = toWork.inverse();
    this.staffSpace = staffSpace;
  }

  /** Returns the file name. */
  public String source() {
    return source;
  }

  /** Returns the position among the pages of its file, 1 for the first. */
  public int indexInSource() {
    return indexInSource;
  }

  /** Returns the width of the given image in pixels, after its EXIF orientation. */
  public int width() {
    return width;
  }

  /** Returns the height of the given image in pixels, after its EXIF orientation. */
  public int height() {
    return height;
  }

  /** Returns the working image; it belongs to this page and is freed with it. */
  public Mat gray() {
    return gray;
  }

  /**
   * Returns the page's usual staff space in pixels of the working image, as first estimated; 0 when
   * nothing on the page looks like staves.
   */
  public double staffSpace() {
    return staffSpace;
  }

  /** Returns where a point of the working image lies in the given file. */
  public Point toFile(double x, double y) {
    return toFile.apply(x, y);
  }

  /** Returns where a point of the given file lies in the working image. */
  public Point toWork(double x, double y) {
    return toWork.apply(x, y);
  }

  /** Turns the working image upside down; positions in it found before are no longer good. */
  public void turnHalf() {
    Core.rotate(gray, gray, Core.ROTATE_180);
    toWork =
        toWork.then(new Homography(new double[] {-1, 0, gray.cols(), 0, -1, gray.rows(), 0, 0, 1}));
    toFile = toWork.inverse();
  }

  @Override
  public void close() {
    scope.close();
  }
}
