package org.barmap.staff;

import org.barmap.map.Point;
import org.barmap.page.PageImage;
import org.barmap.page.pixel.Mats;
import org.opencv.core.Core;
import org.opencv.core.Mat;
import org.opencv.core.Rect;
import org.opencv.core.Scalar;
import org.opencv.core.Size;
import org.opencv.imgproc.Imgproc;

/**
 * A staff straightened to a gray image of fixed scale, ink 0 on paper 255.
 *
 * <p>With 8 pixels a staff space it is 160 pixels high, the middle line at y = 88, nine spaces
 * above the staff and seven below; it starts three spaces left of the staff and ends three right of
 * it. With 16 pixels a space everything is doubled.
 *
 * @param page it is cut from
 * @param staff it straightens
 * @param pxPerSpace pixels for one staff space
 * @param width pixels
 * @param height pixels: 20 staff spaces
 * @param gray row by row, unsigned; not copied, not to be changed
 */
public record Strip(
    PageImage page, Staff staff, int pxPerSpace, int width, int height, byte[] gray) {

  private static final StaffSettings.Cut SET = StaffSettings.STANDARD.cut();

  /** Height in staff spaces. */
  public static final int HEIGHT = 20;

  /** Spaces from the top edge down to the middle line. */
  public static final int MIDDLE = 11;

  /** Spaces shown before the left end and after the right end. */
  public static final int MARGIN = 3;

  /** Cuts the strip of a staff; pixels per staff space 8 or 16. */
  public static Strip cut(PageImage page, Staff staff, int pxPerSpace) {
    int width = width(staff, pxPerSpace);
    int height = HEIGHT * pxPerSpace;
    byte[] gray =
        part(page, staff, pxPerSpace, new Rect(0, 0, width, height), SET.mostSkipped(), true);
    return new Strip(page, staff, pxPerSpace, width, height, gray);
  }

  /** Returns the width of a staff's strip in pixels. */
  public static int width(Staff staff, int pxPerSpace) {
    return (int) Math.ceil((staff.length() + 2 * MARGIN) * pxPerSpace);
  }

  /**
   * Returns a part of what the strip of a staff would be, row by row, without cutting the rest.
   *
   * @param part in pixels of the strip
   */
  public static byte[] part(PageImage page, Staff staff, int pxPerSpace, Rect part) {
    return part(page, staff, pxPerSpace, part, SET.mostSkipped(), false);
  }

  /** The same, quicker: thin lines may come out ragged. */
  public static byte[] rough(PageImage page, Staff staff, int pxPerSpace, Rect part) {
    return part(page, staff, pxPerSpace, part, Double.MAX_VALUE, false);
  }

  /** Cuts a part; that of a staff of few lines is drawn as if it had five, all of them if lined. */
  private static byte[] part(
      PageImage page, Staff staff, int pxPerSpace, Rect part, double mostSkipped, boolean lined) {
    if (staff.few().isEmpty()) {
      return cut(page, staff, pxPerSpace, part, mostSkipped);
    }
    FewLines lines = staff.few().get();
    byte[] own = cut(page, staff, pxPerSpace, lines.source(part, pxPerSpace), mostSkipped);
    return lines.drawn(own, part, pxPerSpace, staff.length(), lined);
  }

  private static byte[] cut(
      PageImage page, Staff staff, int pxPerSpace, Rect part, double mostSkipped) {
    byte[] pixels = new byte[part.width * part.height];
    try (Mats scope = new Mats()) {
      StripGrid grid = StripGrid.of(staff, pxPerSpace, part);
      Rect from = grid.source(page.gray().cols(), page.gray().rows());
      Mat source = scope.keep(page.gray().submat(from));
      double ratio = staff.usualSpace() / pxPerSpace;
      if (ratio > mostSkipped) {
        // Averaging down to just above the strip's own scale first keeps thin lines from breaking.
        // Halving the whole page once instead would be quicker, but a few signs more are misread.
        double shrink = 1 / Math.min(ratio * SET.shrink(), SET.mostShrink());
        Mat smaller = scope.mat();
        double w = Math.max(1, Math.round(from.width * shrink));
        double h = Math.max(1, Math.round(from.height * shrink));
        Imgproc.resize(source, smaller, new Size(w, h), 0, 0, Imgproc.INTER_AREA);
        source = smaller;
      }
      Mat out = scope.mat();
      Imgproc.remap(
          source,
          out,
          grid.x(from.x, source.cols() / (double) from.width, scope),
          grid.y(from.y, source.rows() / (double) from.height, scope),
          Imgproc.INTER_LINEAR,
          Core.BORDER_CONSTANT,
          new Scalar(255));
      out.get(0, 0, pixels);
    }
    return pixels;
  }

  /** Returns how far along the staff a column position is, staff spaces from the left end. */
  public double along(double u) {
    return u / pxPerSpace - MARGIN;
  }

  /** Returns how far from the middle line a row position is, staff spaces, negative above. */
  public double across(double v) {
    return v / pxPerSpace - MIDDLE;
  }

  /** Returns where a point of the strip lies in the given file. */
  public Point toFile(double u, double v) {
    double drawn = across(v);
    double across = staff.few().map(f -> f.lines().onPage(drawn)).orElse(drawn);
    Point p = staff.at(along(u), across);
    return page.toFile(p.x(), p.y());
  }
}
