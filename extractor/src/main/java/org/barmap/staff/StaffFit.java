package org.barmap.staff;

/** Fits a smooth curve with its own staff space to a track. */
final class StaffFit {

  private static final StaffSettings.Fit SET = StaffSettings.STANDARD.fit();

  /** Keeps the last step of a walk by parts of a space from being lost to rounding. */
  private static final double ROUNDING = 0.001;

  private final LineBlocks lines;
  private final int first;
  private final double[] middle;
  private final double[] space;

  private StaffFit(LineBlocks lines, Tracks.Track track, double usual) {
    this.lines = lines;
    this.first = track.first();
    this.middle = track.y().clone();
    this.space = new double[middle.length];
    java.util.Arrays.fill(space, usual);
  }

  /** Fits; the usual space is where the search for this staff's own one starts. */
  static StaffFit of(LineBlocks lines, Tracks.Track track, double usual) {
    StaffFit fit = new StaffFit(lines, track, usual);
    fit.startSpace(usual);
    fit.refine(0);
    Retrace.straighten(lines, fit.first, fit.middle, fit.space);
    fit.refine(1);
    fit.refine(2);
    return fit;
  }

  int first() {
    return first;
  }

  int last() {
    return first + middle.length - 1;
  }

  double middle(int b) {
    return middle[b - first];
  }

  double space(int b) {
    return space[b - first];
  }

  /** Returns the share of blocks in which a line stands at a number of spaces from the middle. */
  double coverage(double across) {
    return share(across, false);
  }

  /** Returns the same share of only those blocks in which a line would not be hidden. */
  double visible(double across) {
    return share(across, true);
  }

  private double share(double across, boolean onlyVisible) {
    double seen = 0;
    double all = 0;
    for (int i = 0; i < middle.length; i++) {
      double best = 0;
      double y = middle[i] + across * space[i];
      boolean bare = true;
      for (double d = -SET.near(); d <= SET.near() + ROUNDING; d += SET.nearStep()) {
        best = Math.max(best, lines.at(first + i, y + d * space[i]));
        bare &= lines.isBare(first + i, y + d * space[i]);
      }
      boolean line = best > SET.line();
      seen += line ? 1 : 0;
      all += line || bare || !onlyVisible ? 1 : 0;
    }
    // Where next to nothing could be seen nothing is said against a line.
    return all < SET.fewVisible() * middle.length ? 1 : seen / all;
  }

  /**
   * Returns how far lines usually lie from where the fit has them, in staff spaces: the mean over
   * all lines seen within a quarter of a space. Near 0.03 for a staff, near 0.12 for chance.
   */
  double unevenness() {
    double sum = 0;
    int seen = 0;
    for (int i = 0; i < middle.length; i++) {
      double reach = SET.uneven() * space[i];
      for (int k = -2; k <= 2; k++) {
        double from = middle[i] + k * space[i];
        double top = SET.line();
        double at = Double.NaN;
        for (double d = -reach; d <= reach; d += 1) {
          double v = lines.at(first + i, from + d);
          if (v > top) {
            top = v;
            at = d;
          }
        }
        if (!Double.isNaN(at)) {
          sum += Math.abs(at) / space[i];
          seen++;
        }
      }
    }
    return seen == 0 ? 1 : sum / seen;
  }

  /** Finds the one space that suits the whole track best. */
  private void startSpace(double usual) {
    // A long track tells its space by every third block.
    int every = middle.length > SET.longTrack() ? SET.sparse() : 1;
    double best = -1;
    double bestSpace = usual;
    for (double s = SET.smallest() * usual;
        s <= SET.largest() * usual;
        s += SET.spaceStep() * usual) {
      double sum = 0;
      for (int i = 0; i < middle.length; i += every) {
        sum += lines.comb(first + i, middle[i], s);
      }
      if (sum > best) {
        best = sum;
        bestSpace = s;
      }
    }
    java.util.Arrays.fill(space, bestSpace);
  }

  private void refine(int round) {
    int n = middle.length;
    double reach = round == 0 ? SET.firstReach() : SET.reach();
    double[] y = new double[n];
    double[] s = new double[n];
    double[] wy = new double[n];
    double[] ws = new double[n];
    for (int i = 0; i < n; i++) {
      measure(i, reach, y, s, wy, ws);
    }
    double blocksPerSpace = space[0] / LineBlocks.WIDTH;
    smooth(y, wy, SET.middleBell() * blocksPerSpace, SET.middleTolerance() * space[0], middle);
    smooth(s, ws, SET.spaceBell() * blocksPerSpace, SET.spaceTolerance() * space[0], space);
  }

  /** Measures one block: where its lines are, as a middle and a space with weights. */
  private void measure(int i, double reach, double[] y, double[] s, double[] wy, double[] ws) {
    double w = 0;
    double wk = 0;
    double wkk = 0;
    double wd = 0;
    double wkd = 0;
    for (int k = -2; k <= 2; k++) {
      double from = middle[i] + k * space[i];
      double r = reach * space[i];
      double top = 0;
      double at = 0;
      for (int p = (int) Math.ceil(from - r); p <= from + r; p++) {
        double v = lines.at(first + i, p);
        if (v > top) {
          top = v;
          at = p;
        }
      }
      if (top < SET.peak()) {
        continue;
      }
      double before = lines.at(first + i, at - 1);
      double after = lines.at(first + i, at + 1);
      double bend = before - 2 * top + after;
      double peak = bend < SET.flat() ? at + (before - after) / (2 * bend) : at;
      double d = peak - from;
      w += top;
      wk += top * k;
      wkk += top * k * k;
      wd += top * d;
      wkd += top * k * d;
    }
    y[i] = middle[i];
    s[i] = space[i];
    double det = w * wkk - wk * wk;
    if (w < SET.leastWeight()) {
      return;
    }
    if (det > SET.leastSpread() && wkk > SET.leastLines()) {
      double a = (wd * wkk - wk * wkd) / det;
      double c = (w * wkd - wk * wd) / det;
      y[i] += a;
      s[i] += c;
      wy[i] = w;
      ws[i] = wkk;
    } else {
      y[i] += wd / w;
      wy[i] = SET.middleOnly() * w;
    }
  }

  /** Smooths by local straight lines with weights, outliers weighed down in a second pass. */
  private static void smooth(double[] v, double[] w, double sigma, double tolerance, double[] out) {
    int n = v.length;
    int reach = (int) Math.ceil(SET.bellReach() * sigma);
    double[] bell = new double[reach + 1];
    for (int d = 0; d <= reach; d++) {
      bell[d] = Math.exp(-0.5 * d * d / (sigma * sigma));
    }
    double[] robust = w.clone();
    double[] result = out.clone();
    // A wide bell gives a curve so smooth that a few of its points tell all of it.
    int step = (int) Math.max(1, sigma / SET.coarse());
    for (int pass = 0; pass < SET.passes(); pass++) {
      int before = 0;
      for (int i = 0; i < n; i = i == n - 1 ? n : Math.min(n - 1, i + step)) {
        result[i] = local(v, robust, bell, i, SET.pull() * sigma * sigma, out[i]);
        for (int j = before + 1; j < i; j++) {
          double f = (j - before) / (double) (i - before);
          result[j] = result[before] * (1 - f) + result[i] * f;
        }
        before = i;
      }
      for (int j = 0; j < n; j++) {
        double d = (v[j] - result[j]) / tolerance;
        robust[j] = w[j] / (1 + d * d * d * d);
      }
    }
    System.arraycopy(result, 0, out, 0, n);
  }

  /** Returns the height at a place of the straight line fitted around it. */
  private static double local(
      double[] v, double[] weights, double[] bell, int i, double pull, double otherwise) {
    int reach = bell.length - 1;
    double sw = 0;
    double sd = 0;
    double sdd = 0;
    double sv = 0;
    double sdv = 0;
    for (int j = Math.max(0, i - reach); j <= Math.min(v.length - 1, i + reach); j++) {
      double a = weights[j] * bell[Math.abs(j - i)];
      double d = j - i;
      sw += a;
      sd += a * d;
      sdd += a * d * d;
      sv += a * v[j];
      sdv += a * d * v[j];
    }
    // A little pull towards the value so far keeps thin evidence from swinging the line.
    double ridge = pull * sw + SET.tiny();
    double det = sw * (sdd + ridge) - sd * sd;
    return sw < SET.leastWeight() || det < SET.tiny()
        ? otherwise
        : (sv * (sdd + ridge) - sd * sdv) / det;
  }
}
