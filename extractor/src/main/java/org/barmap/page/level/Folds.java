package org.barmap.page.level;

import java.util.Optional;
import org.barmap.page.pixel.FacingSettings;
import org.barmap.page.pixel.PageSettings;
import org.opencv.core.Mat;

/** Looks for the fold of the paper in a band without staves: a line darker than what is beside. */
final class Folds {

  private static final FacingSettings SET = PageSettings.STANDARD.facing();

  private final byte[] pixels;
  private final int width;
  private final int height;
  private final double space;
  private final double middle;

  /**
   * Takes a picture.
   *
   * @param space staff space, pixels
   * @param middle height at which lines are placed, pixels
   */
  Folds(Mat gray, double space, double middle) {
    this.width = gray.cols();
    this.height = gray.rows();
    this.pixels = new byte[width * height];
    gray.get(0, 0, pixels);
    this.space = space;
    this.middle = middle;
  }

  /**
   * Returns the darkest line that stays in a band.
   *
   * @param from where the band begins at the middle height, pixels
   * @param to where it ends
   * @param slope of the band
   * @param reach how far above and below the middle height it goes, pixels
   */
  Optional<Gutter> darkest(int from, int to, double slope, double reach) {
    int beside = (int) Math.ceil(SET.foldBeside() * space);
    Optional<Gutter> best = Optional.empty();
    double deepest = SET.foldDepth();
    for (double k = slope - SET.foldLean(); k <= slope + SET.foldLean(); k += SET.foldStep()) {
      int inside = (int) Math.ceil(Math.abs(k - slope) * reach);
      if (to - from <= 2 * inside) {
        continue;
      }
      double[] mean = new double[to - from + 2 * beside];
      for (int i = 0; i < mean.length; i++) {
        mean[i] = mean(from - beside + i, k);
      }
      for (int i = beside + inside; i < mean.length - beside - inside; i++) {
        double depth = Math.min(mean[i - beside], mean[i + beside]) - mean[i];
        if (depth > deepest) {
          deepest = depth;
          best = Optional.of(new Gutter(from - beside + i + 0.5, k, middle));
        }
      }
    }
    return best;
  }

  private double mean(double x, double slope) {
    double sum = 0;
    int seen = 0;
    for (int y = 0; y < height; y += SET.foldEvery()) {
      int at = (int) Math.round(x + slope * (y - middle));
      if (at >= 0 && at < width) {
        sum += pixels[y * width + at] & 0xff;
        seen++;
      }
    }
    return seen == 0 ? 0 : sum / seen;
  }
}
