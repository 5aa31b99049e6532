package org.barmap.staff;

import org.barmap.map.Point;
import org.barmap.page.Mats;
import org.barmap.page.PageImage;
import org.opencv.core.Core;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import org.opencv.core.Scalar;
import org.opencv.core.Size;
import org.opencv.imgproc.Imgproc;

/**
 * A staff straightened to a gray image of fixed scale, ink 0 on paper 255.
 *
 * <p>With 8 pixels a staff space it is 160 pixels high, the middle line at y = 88, nine spaces
 * above the staff and seven below; it starts three spaces left of the staff and ends three right of
 * it. With 16 pixels a space everything is doubled.
 */
public final class Strip {

  /** Height in staff spaces. */
  public static final int HEIGHT = 20;

  /** Spaces from the top edge down to the middle line. */
  public static final int MIDDLE = 11;

  /** Spaces shown before the left end and after the right end. */
  public static final int MARGIN = 3;

  private static final int SAMPLE = 8;

  private final int width;
  private final int height;
  private final int pxPerSpace;
  private final byte[] gray;
  private final PageImage page;
  private final Staff staff;

  private final int above;

  private Strip(
      PageImage page, Staff staff, int pxPerSpace, int above, int width, int height, byte[] gray) {
    this.page = page;
    this.staff = staff;
    this.pxPerSpace = pxPerSpace;
    this.above = above;
    this.width = width;
    this.height = height;
    this.gray = gray;
  }

  /** Cuts the strip of a staff; pixels per staff space 8 or 16. */
  public static Strip cut(PageImage page, Staff staff, int pxPerSpace) {
    return cut(page, staff, pxPerSpace, MIDDLE, HEIGHT - MIDDLE);
  }

  /**
   * Cuts another height around a staff.
   *
   * @param above spaces from the top edge down to the middle line
   * @param below spaces from the middle line down to the bottom edge; may be negative
   */
  public static Strip cut(PageImage page, Staff staff, int pxPerSpace, int above, int below) {
    int width = (int) Math.ceil((staff.length() + 2 * MARGIN) * pxPerSpace);
    int height = (above + below) * pxPerSpace;
    byte[] pixels = new byte[width * height];
    try (Mats scope = new Mats()) {
      // The map is smooth, so it is computed on a coarse grid and drawn out in between.
      int across = width / SAMPLE + 2;
      int down = height / SAMPLE + 1;
      float[] mx = new float[across * down];
      float[] my = new float[across * down];
      double top = Double.MAX_VALUE;
      double bottom = -Double.MAX_VALUE;
      for (int i = 0; i < across; i++) {
        double along = (i * SAMPLE + 0.5) / pxPerSpace - MARGIN;
        for (int j = 0; j < down; j++) {
          Point p = staff.at(along, (j * SAMPLE + 0.5) / pxPerSpace - above);
          mx[j * across + i] = (float) (p.x() - 0.5);
          my[j * across + i] = (float) (p.y() - 0.5);
          top = Math.min(top, p.y());
          bottom = Math.max(bottom, p.y());
        }
      }
      Mat part = scope.mat();
      double shrink =
          source(page.gray(), top, bottom, staff.usualSpace() / pxPerSpace, part, scope);
      int y0 = firstRow(page.gray(), top);
      Mat mapX = scope.keep(grid(mx, across, down, shrink, 0, width, height));
      Mat mapY = scope.keep(grid(my, across, down, shrink, y0, width, height));
      Mat out = scope.mat();
      Imgproc.remap(
          part, out, mapX, mapY, Imgproc.INTER_LINEAR, Core.BORDER_CONSTANT, new Scalar(255));
      out.get(0, 0, pixels);
    }
    return new Strip(page, staff, pxPerSpace, above, width, height, pixels);
  }

  private static int firstRow(Mat gray, double top) {
    return (int) Math.max(0, Math.min(gray.rows() - 1, Math.floor(top) - 4));
  }

  /** Takes the rows the strip needs; shrunk where the strip is coarser. Returns the shrinking. */
  private static double source(
      Mat gray, double top, double bottom, double ratio, Mat into, Mats scope) {
    int y0 = firstRow(gray, top);
    int y1 = (int) Math.max(y0 + 1, Math.min(gray.rows(), Math.ceil(bottom) + 5));
    Mat rows = scope.keep(gray.rowRange(y0, y1));
    if (ratio <= 1.25) {
      rows.copyTo(into);
      return 1;
    }
    // Averaging down to just above the strip's own scale first keeps thin lines from breaking.
    double shrink = 1 / Math.min(ratio * 0.85, 4);
    Imgproc.resize(
        rows,
        into,
        new Size(Math.round(rows.cols() * shrink), Math.round(rows.rows() * shrink)),
        0,
        0,
        Imgproc.INTER_AREA);
    return into.rows() / (double) rows.rows();
  }

  /** Draws a coarse grid of positions out to every pixel. */
  private static Mat grid(
      float[] values, int across, int down, double shrink, int origin, int width, int height) {
    try (Mats scope = new Mats()) {
      float[] scaled = new float[values.length];
      for (int i = 0; i < values.length; i++) {
        scaled[i] = (float) ((values[i] + 0.5 - origin) * shrink - 0.5);
      }
      Mat coarse = scope.keep(new Mat(down, across, CvType.CV_32F));
      coarse.put(0, 0, scaled);
      Mat matrix = scope.keep(new Mat(2, 3, CvType.CV_64F));
      matrix.put(0, 0, 1.0 / SAMPLE, 0, 0, 0, 1.0 / SAMPLE, 0);
      Mat full = scope.mat();
      Imgproc.warpAffine(
          coarse,
          full,
          matrix,
          new Size(width, height),
          Imgproc.INTER_LINEAR | Imgproc.WARP_INVERSE_MAP,
          Core.BORDER_REPLICATE);
      return scope.release(full);
    }
  }

  /** Returns the width in pixels. */
  public int width() {
    return width;
  }

  /** Returns the height in pixels. */
  public int height() {
    return height;
  }

  /** Returns the pixels for one staff space. */
  public int pxPerSpace() {
    return pxPerSpace;
  }

  /** Returns the gray values row by row, unsigned; not copied, not to be changed. */
  @SuppressWarnings("EI_EXPOSE_REP")
  public byte[] gray() {
    return gray;
  }

  /** Returns how far along the staff a column position is, staff spaces from the left end. */
  public double along(double u) {
    return u / pxPerSpace - MARGIN;
  }

  /** Returns how far from the middle line a row position is, staff spaces, negative above. */
  public double across(double v) {
    return v / pxPerSpace - above;
  }

  /** Returns where a point of the strip lies in the given file. */
  public Point toFile(double u, double v) {
    Point p = staff.at(along(u), across(v));
    return page.toFile(p.x(), p.y());
  }
}
