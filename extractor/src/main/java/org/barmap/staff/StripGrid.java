package org.barmap.staff;

import org.barmap.map.Point;
import org.barmap.page.pixel.Mats;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import org.opencv.core.Rect;
import org.opencv.core.Size;
import org.opencv.imgproc.Imgproc;

/**
 * Where the pixels of a strip lie on the page.
 *
 * <p>The map is smooth, so it is computed at every eighth pixel and drawn out in between.
 */
final class StripGrid {

  private static final int SAMPLE = 8;

  /** Page pixels around the places themselves that interpolating between them needs. */
  private static final int AROUND = 5;

  private final Rect part;
  private final int across;
  private final int down;
  private final float[] xs;
  private final float[] ys;

  private StripGrid(Rect part, int across, int down, float[] xs, float[] ys) {
    this.part = part;
    this.across = across;
    this.down = down;
    this.xs = xs;
    this.ys = ys;
  }

  /** Maps a part of a staff's strip. */
  static StripGrid of(Staff staff, int pxPerSpace, Rect part) {
    // One sample more on each side: they lie in the middles of squares of eight pixels.
    int across = (part.width + SAMPLE - 1) / SAMPLE + 2;
    int down = (part.height + SAMPLE - 1) / SAMPLE + 2;
    float[] xs = new float[across * down];
    float[] ys = new float[across * down];
    for (int i = 0; i < across; i++) {
      double along = (part.x + (i - 0.5) * SAMPLE) / pxPerSpace - Strip.MARGIN;
      for (int j = 0; j < down; j++) {
        Point p = staff.at(along, (part.y + (j - 0.5) * SAMPLE) / pxPerSpace - Strip.MIDDLE);
        xs[j * across + i] = (float) p.x();
        ys[j * across + i] = (float) p.y();
      }
    }
    return new StripGrid(part, across, down, xs, ys);
  }

  /** Returns the part of the page that is needed, at least one pixel. */
  Rect source(int cols, int rows) {
    int[] x = range(xs, cols);
    int[] y = range(ys, rows);
    return new Rect(x[0], y[0], x[1] - x[0], y[1] - y[0]);
  }

  private static int[] range(float[] values, int end) {
    float least = Float.MAX_VALUE;
    float most = -Float.MAX_VALUE;
    for (float v : values) {
      least = Math.min(least, v);
      most = Math.max(most, v);
    }
    int from = (int) Math.max(0, Math.min(end - 1.0, Math.floor(least) - AROUND));
    int to = (int) Math.max(from + 1.0, Math.min(end, Math.ceil(most) + AROUND));
    return new int[] {from, to};
  }

  /** Returns for every pixel its column in a source that begins at an origin and was scaled. */
  Mat x(int origin, double scale, Mats scope) {
    return drawn(xs, origin, scale, scope);
  }

  /** Returns for every pixel its row likewise. */
  Mat y(int origin, double scale, Mats scope) {
    return drawn(ys, origin, scale, scope);
  }

  private Mat drawn(float[] values, int origin, double scale, Mats scope) {
    float[] moved = new float[values.length];
    for (int i = 0; i < values.length; i++) {
      moved[i] = (float) ((values[i] - origin) * scale - 0.5);
    }
    Mat coarse = scope.keep(new Mat(down, across, CvType.CV_32F));
    coarse.put(0, 0, moved);
    Mat full = scope.mat();
    Imgproc.resize(
        coarse, full, new Size(across * SAMPLE, down * SAMPLE), 0, 0, Imgproc.INTER_LINEAR);
    return scope.keep(full.submat(new Rect(SAMPLE, SAMPLE, part.width, part.height)));
  }
}
