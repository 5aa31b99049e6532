package org.barmap.page;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.function.Consumer;
import org.barmap.map.Point;
import org.barmap.page.pixel.Homography;
import org.barmap.page.pixel.Mats;
import org.opencv.core.Core;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import org.opencv.core.MatOfPoint;
import org.opencv.core.Scalar;
import org.opencv.core.Size;
import org.opencv.imgcodecs.Imgcodecs;
import org.opencv.imgproc.Imgproc;

/**
 * Paints simple pages of music with known staves, to damage and read back.
 *
 * <p>Staff lines follow {@code y + bend(x)}; every staff has a block of ink like a clef, barlines,
 * heads, stems and beams. Not thread safe; close it.
 */
public final class PagePainter implements AutoCloseable {

  /** How far a staff is bent down at an x. */
  @FunctionalInterface
  public interface Bend {
    double at(double x);
  }

  /** A staff as painted: middle line at {@code y + bend}, from left to right. */
  public record Painted(double left, double right, double y, double space, Bend bend) {
    public double middle(double x) {
      return y + bend.at(x);
    }
  }

  private static final int SHIFT = 6;

  private final Mats scope = new Mats();
  private final Mat image;
  private final Random random = new Random(5);
  private final List<Painted> staves = new ArrayList<>();
  private double ink = 10;
  private double thickness = 0.12;
  private double broken;

  public PagePainter(int width, int height) {
    image = scope.keep(new Mat(height, width, CvType.CV_8U, new Scalar(255)));
  }

  /** Sets the gray of the ink. */
  public PagePainter ink(double gray) {
    ink = gray;
    return this;
  }

  /** Sets the thickness of staff lines in staff spaces. */
  public PagePainter thickness(double spaces) {
    thickness = spaces;
    return this;
  }

  /** Sets the share of every staff line that is missing. */
  public PagePainter broken(double share) {
    broken = share;
    return this;
  }

  public PagePainter staff(double left, double right, double y, double space) {
    return staff(left, right, y, space, x -> 0);
  }

  public PagePainter staff(double left, double right, double y, double space, Bend bend) {
    Painted p = new Painted(left, right, y, space, bend);
    staves.add(p);
    for (int k = -2; k <= 2; k++) {
      level(p, left, right, k);
    }
    music(p);
    return this;
  }

  /** Paints staff lines alone, any number of them; they are not kept as a staff. */
  public PagePainter lines(double left, double right, double y, double space, int count) {
    Painted p = new Painted(left, right, y, space, x -> 0);
    for (int k = 0; k < count; k++) {
      level(p, left, right, k);
    }
    return this;
  }

  /** Paints a staff of one line, its barlines so many spaces up and down; it is not kept. */
  public PagePainter single(double left, double right, double y, double space, double half) {
    return few(left, right, y, space, half, 0, 0);
  }

  /**
   * Paints a staff of two lines, or of one, with heads on them and barlines as high above their
   * middle as below.
   *
   * @param half half the height of its barlines, staff spaces
   * @param upper where the upper line lies, staff spaces below {@code y}
   * @param lower and the lower one
   */
  public PagePainter few(
      double left, double right, double y, double space, double half, double upper, double lower) {
    double middle = (upper + lower) / 2;
    Painted p = new Painted(left, right, y, space, x -> 0);
    level(p, left, right, upper);
    level(p, left, right, lower);
    for (double clef : new double[] {1, 1.8}) {
      double x = left + clef * space;
      stroke(p, x, middle - 1, x, middle + 1, 0.5 * space);
    }
    double end = right - 0.1 * space;
    stroke(p, end, middle - half, end, middle + half, 0.18 * space);
    // Of all widths, as bars are; alike, they would look like staves of a page on its side.
    for (double bar = left + 18 * space;
        bar + 4 * space < right;
        bar += (12 + 8 * random.nextDouble()) * space) {
      for (int i = 0; i < 4; i++) {
        double x = bar - (1.6 + 2.7 * i) * space;
        double on = i % 2 == 0 ? upper : lower;
        oval(p, x, on, 0.6, 0.45);
        stroke(p, x + 0.55 * space, on, x + 0.55 * space, on - 3.2, 0.12 * space);
      }
      stroke(p, bar, middle - half, bar, middle + half, 0.18 * space);
    }
    return this;
  }

  /** Paints a table: level lines, and upright ones from the first to the last of them. */
  public PagePainter table(double left, double right, double y, double row, int rows) {
    lines(left, right, y, row, rows + 1);
    for (double x = left; x <= right; x += 6 * row) {
      draw(x, y, x, y + rows * row, thickness * row);
    }
    return this;
  }

  /** Paints a black box. */
  public PagePainter box(double left, double top, double right, double bottom) {
    draw(left, (top + bottom) / 2, right, (top + bottom) / 2, bottom - top);
    return this;
  }

  private void level(Painted p, double left, double right, double k) {
    double piece = 1.5 * p.space;
    for (double x = left; x < right; x += piece) {
      if (random.nextDouble() >= broken) {
        stroke(p, x, k, Math.min(right, x + piece), k, thickness * p.space);
      }
    }
  }

  private void music(Painted p) {
    double s = p.space;
    // A clef: a block of ink; the last barline at the very end.
    oval(p, p.left + 1.6 * s, 0.4, 0.9, 1.4);
    stroke(p, p.left + 2.4 * s, -2.4, p.left + 1.0 * s, 2.2, 0.3 * s);
    stroke(p, p.right - 0.1 * s, -2, p.right - 0.1 * s, 2, 0.18 * s);
    double bar = p.left + 4 * s;
    while (bar + 16 * s < p.right) {
      for (int i = 0; i < 4; i++) {
        double x = bar + (1.5 + 3.4 * i) * s;
        double at = (random.nextInt(9) - 4) / 2.0;
        oval(p, x, at, 0.6, 0.45);
        stroke(p, x + 0.55 * s, at, x + 0.55 * s, at - 3.2, 0.12 * s);
        if (i % 2 == 0 && random.nextBoolean()) {
          stroke(p, x + 0.55 * s, at - 3.2, x + 3.4 * s, at - 3, 0.5 * s);
        }
      }
      bar += 15 * s;
      stroke(p, bar, -2, bar, 2, 0.18 * s);
    }
  }

  /** Joins two staves at the left. */
  public PagePainter join(int upper, int lower) {
    Painted a = staves.get(upper);
    Painted b = staves.get(lower);
    draw(
        a.left,
        a.middle(a.left) - 2 * a.space,
        b.left,
        b.middle(b.left) + 2 * b.space,
        0.18 * a.space);
    return this;
  }

  /** Paints lines of print. */
  public PagePainter text(double left, double right, double top, double height, int lines) {
    for (int row = 0; row < lines; row++) {
      StringBuilder line = new StringBuilder();
      while (line.length() * height * 0.85 < right - left) {
        line.append((char) (random.nextInt(6) == 0 ? ' ' : 'a' + random.nextInt(26)));
      }
      Imgproc.putText(
          image,
          line.toString(),
          new org.opencv.core.Point(left, top + row * height * 1.6),
          Imgproc.FONT_HERSHEY_COMPLEX,
          height / 22,
          new Scalar(ink),
          Math.max(1, (int) (height / 11)),
          Imgproc.LINE_AA);
    }
    return this;
  }

  private void stroke(Painted p, double x0, double k0, double x1, double k1, double width) {
    draw(x0, p.middle(x0) + k0 * p.space, x1, p.middle(x1) + k1 * p.space, width);
  }

  private void draw(double x0, double y0, double x1, double y1, double width) {
    double nx = -(y1 - y0);
    double ny = x1 - x0;
    double length = Math.max(1e-9, Math.hypot(nx, ny));
    nx *= width / 2 / length;
    ny *= width / 2 / length;
    MatOfPoint polygon =
        new MatOfPoint(
            fine(x0 + nx, y0 + ny),
            fine(x1 + nx, y1 + ny),
            fine(x1 - nx, y1 - ny),
            fine(x0 - nx, y0 - ny));
    Imgproc.fillConvexPoly(image, polygon, new Scalar(ink), Imgproc.LINE_AA, SHIFT);
    polygon.release();
  }

  /** Pixel centres lie at whole numbers for OpenCV. */
  private static org.opencv.core.Point fine(double x, double y) {
    return new org.opencv.core.Point(
        Math.round((x - 0.5) * (1 << SHIFT)), Math.round((y - 0.5) * (1 << SHIFT)));
  }

  private void oval(Painted p, double x, double k, double rx, double ry) {
    Imgproc.ellipse(
        image,
        new org.opencv.core.Point(x, p.middle(x) + k * p.space),
        new Size(rx * p.space, ry * p.space),
        -20,
        0,
        360,
        new Scalar(ink),
        -1,
        Imgproc.LINE_AA,
        0);
  }

  /** Returns the staves painted, top to bottom as painted. */
  public List<Painted> staves() {
    return List.copyOf(staves);
  }

  /** Returns the picture; it stays the painter's. */
  public Mat image() {
    return image;
  }

  /** Blurs by a radius in pixels. */
  public PagePainter blur(double sigma) {
    Imgproc.GaussianBlur(image, image, new Size(0, 0), sigma);
    return this;
  }

  /** Adds noise. */
  public PagePainter noise(double sigma) {
    Mat n = scope.keep(new Mat(image.size(), CvType.CV_16S));
    Core.randn(n, 0, sigma);
    Core.add(image, n, image, scope.mat(), CvType.CV_8U);
    return this;
  }

  /** Darkens towards one side: factor 1 left, {@code least} right. */
  public PagePainter shadow(double least) {
    Mat l = scope.keep(new Mat(1, image.cols(), CvType.CV_32F));
    float[] f = new float[image.cols()];
    for (int i = 0; i < f.length; i++) {
      f[i] = (float) (1 - (1 - least) * i / f.length);
    }
    l.put(0, 0, f);
    Mat full = scope.mat();
    Core.repeat(l, image.rows(), 1, full);
    Core.multiply(image, full, image, 1, CvType.CV_8U);
    return this;
  }

  /** Puts the picture on a dark table, seen aslant; returns where page points come to lie. */
  public Photo photo(int width, int height, List<Point> corners) {
    Homography map = Homography.quadToBox(corners, image.cols(), image.rows()).inverse();
    Mat out = scope.keep(new Mat(height, width, CvType.CV_8U, new Scalar(70)));
    Mat matrix = scope.keep(map.forPixelCentres());
    Imgproc.warpPerspective(
        image, out, matrix, out.size(), Imgproc.INTER_AREA, Core.BORDER_TRANSPARENT, new Scalar(0));
    return new Photo(out, map);
  }

  /** A photograph of the page; its picture stays the painter's. */
  public record Photo(Mat image, Homography map) {
    public Point at(double x, double y) {
      return map.apply(x, y);
    }
  }

  /** Reads a picture as the first page of a file; the caller closes the page. */
  public static PageImage read(Mat picture) {
    PageResult result = Upright.pages("page.png", 1, picture.clone()).get(0);
    return ((PageResult.Loaded) result).page();
  }

  /** Writes the picture as a file of the kind its name says. */
  public void write(java.nio.file.Path file) {
    if (!Imgcodecs.imwrite(file.toString(), image)) {
      throw new IllegalStateException("could not write " + file);
    }
  }

  @Override
  public void close() {
    scope.close();
  }

  /** Returns a white picture with black drawn on it. */
  public static BufferedImage drawn(int width, int height, int type, Consumer<Graphics2D> black) {
    BufferedImage image = new BufferedImage(width, height, type);
    Graphics2D g = image.createGraphics();
    g.setColor(Color.WHITE);
    g.fillRect(0, 0, width, height);
    g.setColor(Color.BLACK);
    black.accept(g);
    g.dispose();
    return image;
  }

  /** The same in gray. */
  public static BufferedImage drawn(int width, int height, Consumer<Graphics2D> black) {
    return drawn(width, height, BufferedImage.TYPE_BYTE_GRAY, black);
  }
}
