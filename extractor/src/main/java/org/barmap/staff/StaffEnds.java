package org.barmap.staff;

/** Finds where the lines of a staff begin and end, to the pixel. */
final class StaffEnds {

  private static final StaffSettings.Ends SET = StaffSettings.STANDARD.ends();

  /** Keeps the last step of a walk by parts of a space from being lost to rounding. */
  private static final double ROUNDING = 0.01;

  private final Pixels pixels;
  private final double scale;
  private final double least;

  StaffEnds(Pixels pixels, LineBlocks lines) {
    this.pixels = pixels;
    this.scale = lines.scale();
    this.least = Math.max(SET.leastDarker(), SET.darker() * lines.contrast());
  }

  /** Returns the staff of a fit with its exact ends. */
  Staff staff(StaffFit fit) {
    Drawn line = new Drawn(fit, scale);
    double left = end(line, line.x0, -1);
    double right = end(line, line.x1, 1);
    int points = (int) Math.ceil((right - left) / Staff.STEP) + 1;
    points = Math.max(2, points);
    double[] middle = new double[points];
    double[] space = new double[points];
    for (int i = 0; i < points; i++) {
      double x = left + i * Staff.STEP;
      middle[i] = line.middle(x);
      space[i] = line.space(x);
    }
    return new Staff(left, right, middle, space, 0);
  }

  private double end(Drawn line, double coarse, int direction) {
    double s = line.space(coarse);
    double good = Double.NaN;
    // From a little inside outwards; further inside when there is nothing.
    for (double inside = SET.inside() * s; Double.isNaN(good); inside += SET.further() * s) {
      double start = coarse - direction * inside;
      if (start < line.x0 - SET.inside() * s || start > line.x1 + SET.inside() * s) {
        return coarse;
      }
      double bare = 0;
      double run = 0;
      for (double x = start; (x - coarse) * direction < SET.beyond() * s; x += direction) {
        if (x < 0 || x >= pixels.width() || bare > SET.gap() * s) {
          break;
        }
        int seen = seen(line, x);
        bare += seen < 0 ? 1 : 0;
        run = seen >= SET.lines() ? run + 1 : seen < 0 ? 0 : run;
        if (run >= SET.run() * s) {
          good = x;
          bare = 0;
        }
      }
    }
    // A barline at the very end belongs to the staff.
    double edge = good;
    for (double x = good; Math.abs(x - good) < SET.barReach() * s; x += direction) {
      if (isBar(line, x)) {
        edge = x;
      } else if (Math.abs(x - edge) > SET.barGap() * s) {
        break;
      }
    }
    return direction > 0 ? Math.floor(edge) + 1 : Math.floor(edge);
  }

  /** Returns how many of the five lines stand at {@code x}; -1 where there is only bare paper. */
  private int seen(Drawn line, double x) {
    double s = line.space(x);
    double y = line.middle(x);
    int count = 0;
    int bare = 0;
    for (int k = -2; k <= 2; k++) {
      double at = y + k * s;
      int dark = pixels.darkest(x, at - SET.near() * s, at + SET.near() * s);
      int paper =
          Math.min(pixels.at(x, at - SET.paperAt() * s), pixels.at(x, at + SET.paperAt() * s));
      if (paper - dark > least) {
        count++;
      } else if (dark > SET.paper() - 2 * least) {
        bare++;
      }
    }
    return count < SET.lines() && bare >= SET.lines() ? -1 : count;
  }

  private boolean isBar(Drawn line, double x) {
    double s = line.space(x);
    double y = line.middle(x);
    int dark = 0;
    for (double k = -SET.barHalf(); k <= SET.barHalf() + ROUNDING; k += SET.barStep()) {
      dark += pixels.at(x, y + k * s) < SET.barInk() ? 1 : 0;
    }
    return dark >= SET.barDark();
  }

  /** A fit drawn out straight beyond its ends, in working pixels. */
  private static final class Drawn {
    final double x0;
    final double x1;
    private final StaffFit fit;
    private final double scale;
    private final double block;
    private final double slopeLeft;
    private final double slopeRight;

    Drawn(StaffFit fit, double scale) {
      this.fit = fit;
      this.scale = scale;
      this.block = LineBlocks.WIDTH / scale;
      this.x0 = (fit.first() + 0.5) * block;
      this.x1 = (fit.last() + 0.5) * block;
      int reach =
          Math.min(
              fit.last() - fit.first(),
              (int) Math.round(SET.slope() * fit.space(fit.first()) / LineBlocks.WIDTH));
      this.slopeLeft = slope(fit, fit.first(), fit.first() + reach);
      this.slopeRight = slope(fit, fit.last() - reach, fit.last());
    }

    private static double slope(StaffFit fit, int a, int b) {
      return b <= a ? 0 : (fit.middle(b) - fit.middle(a)) / ((b - a) * LineBlocks.WIDTH);
    }

    double middle(double x) {
      if (x < x0) {
        return height(fit.middle(fit.first())) + slopeLeft * (x - x0);
      }
      if (x > x1) {
        return height(fit.middle(fit.last())) + slopeRight * (x - x1);
      }
      double i = x / block - 0.5;
      int low = (int) Math.min(Math.floor(i), fit.last() - 1.0);
      low = Math.max(fit.first(), low);
      int high = Math.min(fit.last(), low + 1);
      return height(fit.middle(low) + (fit.middle(high) - fit.middle(low)) * (i - low));
    }

    /** Fits count from pixel centres, the page from pixel edges. */
    private double height(double fitted) {
      return (fitted + 0.5) / scale;
    }

    double space(double x) {
      int b = (int) Math.round(x / block - 0.5);
      return fit.space(Math.max(fit.first(), Math.min(fit.last(), b))) / scale;
    }
  }
}
