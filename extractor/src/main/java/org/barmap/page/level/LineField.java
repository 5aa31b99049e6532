package org.barmap.page.level;

import org.barmap.page.pixel.Mats;
import org.barmap.page.pixel.PageSettings;
import org.barmap.page.pixel.WorkStep;
import org.opencv.core.Core;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import org.opencv.core.Size;
import org.opencv.imgproc.Imgproc;

/**
 * What the fine level lines of a picture say about it as a whole: their slope, how strong they are,
 * and how far apart.
 *
 * <p>Measured tile by tile, so that a bent page with lines of many slopes still shows its lines.
 *
 * @param slope down per right of the usual line, tangent
 * @param energy how much of the ink lies in long level lines; only for comparing turns of a picture
 * @param space usual distance of neighbouring lines in pixels of the picture; 0 when there is none
 * @param strength how regular that distance is, 0 to 1
 * @param columns energy of each tile column, left to right
 */
public record LineField(
    double slope, double energy, double space, double strength, double[] columns) {

  static final PageSettings.Levels SET = PageSettings.STANDARD.levels();

  private static final double THREE_HALVES = 1.5;

  /** Measures a gray picture of moderate size (long side up to some 2000 pixels). */
  static LineField measure(Mat gray) {
    short[][] ridge = ridges(gray);
    int tiles = Math.max(1, ridge.length / SET.tile());
    int steps = (int) Math.round(2 * SET.maxSlope() / SET.slopeStep()) + 1;
    double[][] energy = new double[tiles][steps];
    WorkStep.LEVEL.spread(
        tiles,
        t -> {
          for (int k = 0; k < steps; k++) {
            energy[t][k] = energy(profile(ridge, t, -SET.maxSlope() + k * SET.slopeStep()));
          }
        });
    double[] total = new double[steps];
    for (double[] own : energy) {
      for (int k = 0; k < steps; k++) {
        total[k] += own[k];
      }
    }
    int best = argMax(total, 0, steps - 1);
    double[] correlation = new double[2 * SET.maxSpace() + 2];
    double[] columns = new double[tiles];
    for (int t = 0; t < tiles; t++) {
      // A bent page: each tile may lean its own way, but not far from the usual one.
      int own =
          argMax(
              energy[t],
              Math.max(0, best - SET.tileSteps()),
              Math.min(steps - 1, best + SET.tileSteps()));
      columns[t] = energy[t][own];
      correlate(profile(ridge, t, -SET.maxSlope() + own * SET.slopeStep()), correlation);
    }
    double shift = peak(total, best);
    double[] found = space(correlation);
    return new LineField(
        -SET.maxSlope() + (best + shift) * SET.slopeStep(),
        total[best],
        found[0],
        found[1],
        columns);
  }

  /** Returns the same without a distance. */
  LineField withoutSpace() {
    return new LineField(slope, energy, 0, strength, columns);
  }

  /** Returns how much speaks for staff lines being level in the picture. */
  public double weight() {
    return energy * (SET.plain() + strength);
  }

  /**
   * Returns dark fine level lines as columns of values up to 70, the picture shrunk across.
   *
   * <p>Of thick bars (multi-bar rests) nothing is left: their two edges repeat at distances of
   * their own and would outweigh the staff lines of a page full of rests.
   */
  private static short[][] ridges(Mat gray) {
    try (Mats scope = new Mats()) {
      Mat narrow = scope.mat();
      int w = Math.max(1, gray.cols() / SET.shrink());
      Mat whole = scope.keep(gray.colRange(0, Math.min(gray.cols(), w * SET.shrink())));
      Imgproc.resize(whole, narrow, new Size(w, gray.rows()), 0, 0, Imgproc.INTER_AREA);
      Mat mean = scope.mat();
      Imgproc.blur(narrow, mean, new Size(1, SET.mean()));
      Mat ridge = scope.mat();
      Core.subtract(mean, narrow, ridge);
      Mat thin = scope.mat();
      Mat upright =
          scope.keep(Imgproc.getStructuringElement(Imgproc.MORPH_RECT, new Size(1, SET.thick())));
      Imgproc.morphologyEx(narrow, thin, Imgproc.MORPH_BLACKHAT, upright);
      Core.min(ridge, thin, ridge);
      Core.min(ridge, new org.opencv.core.Scalar(SET.strongest()), ridge);
      Mat turned = scope.mat();
      Core.transpose(ridge, turned);
      Mat wide = scope.mat();
      turned.convertTo(wide, CvType.CV_16S);
      short[][] columns = new short[w][gray.rows()];
      for (int x = 0; x < w; x++) {
        wide.get(x, 0, columns[x]);
      }
      return columns;
    }
  }

  /** Sums one tile along lines of a slope; short sums are quick, and those of one tile fit. */
  private static float[] profile(short[][] ridge, int tile, double slope) {
    int from = tile * SET.tile();
    int to = Math.min(ridge.length, from + SET.tile());
    int h = ridge[0].length;
    short[] sum = new short[h];
    short[] moved = new short[h];
    for (int x = from; x < to; x++) {
      int shift = (int) Math.round(slope * SET.shrink() * (x - from - SET.tile() / 2.0));
      add(ridge[x], shift, moved, sum);
    }
    float[] profile = new float[h];
    for (int y = 0; y < h; y++) {
      profile[y] = sum[y];
    }
    return profile;
  }

  private static void add(short[] column, int shift, short[] moved, short[] sum) {
    int h = sum.length;
    int y0 = Math.min(h, Math.max(0, -shift));
    int y1 = Math.max(y0, Math.min(h, h - shift));
    // Loops that read all arrays at one index become vector instructions, others don't.
    System.arraycopy(column, y0 + shift, moved, y0, y1 - y0);
    for (int y = y0; y < y1; y++) {
      sum[y] += moved[y];
    }
  }

  private static double energy(float[] profile) {
    double mean = 0;
    double squares = 0;
    for (float v : profile) {
      mean += v;
      squares += (double) v * v;
    }
    return squares - mean * mean / profile.length;
  }

  private static void correlate(float[] profile, double[] into) {
    double mean = 0;
    for (float v : profile) {
      mean += v;
    }
    float level = (float) (mean / profile.length);
    float[] p = new float[profile.length];
    for (int i = 0; i < p.length; i++) {
      p[i] = profile[i] - level;
    }
    for (int lag = 0; lag < into.length; lag++) {
      float sum = 0;
      for (int i = 0; i + lag < p.length; i++) {
        sum += p[i] * p[i + lag];
      }
      into[lag] += sum;
    }
  }

  /**
   * Finds the distance at which the lines repeat: five lines agree with themselves moved by one,
   * two and three distances, and disagree moved by half of one.
   */
  private static double[] space(double[] c) {
    double best = 0;
    double bestLag = 0;
    for (double lag = SET.minSpace(); lag <= SET.maxSpace(); lag += SET.spaceStep()) {
      double v =
          (at(c, lag) + at(c, 2 * lag)) / SET.repeated()
              - (at(c, lag / 2) + at(c, THREE_HALVES * lag)) / 2;
      v /= c[0] + SET.tiny();
      if (v > best) {
        best = v;
        bestLag = lag;
      }
    }
    return best < SET.least() ? new double[] {0, best} : new double[] {bestLag, Math.min(1, best)};
  }

  private static double at(double[] c, double lag) {
    int i = (int) lag;
    double f = lag - i;
    return i + 1 < c.length ? c[i] * (1 - f) + c[i + 1] * f : 0;
  }

  private static int argMax(double[] v, int from, int to) {
    int best = from;
    for (int i = from; i <= to; i++) {
      if (v[i] > v[best]) {
        best = i;
      }
    }
    return best;
  }

  /** Returns how far the top of a parabola through three values lies from the middle one. */
  private static double peak(double[] v, int i) {
    if (i == 0 || i == v.length - 1) {
      return 0;
    }
    double d = v[i - 1] - 2 * v[i] + v[i + 1];
    return d >= 0 ? 0 : (v[i - 1] - v[i + 1]) / (2 * d);
  }
}
