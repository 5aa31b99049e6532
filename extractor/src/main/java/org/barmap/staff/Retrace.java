package org.barmap.staff;

/**
 * Brings a track back that strayed from its staff.
 *
 * <p>A slur or a row of ledger lines can pass for a staff line, so that a track runs a line off for
 * a while. Two things tell: beside a slur or ledger line there is bare paper where a staff line
 * would go on, and staves don't jump. The best way along the staff has the fewest bare places on
 * its five lines and the least up and down against a straight line.
 */
final class Retrace {

  private static final StaffSettings.Straight SET = StaffSettings.STANDARD.straight();

  /** Pixels looked at beyond the heights that can be asked for. */
  private static final int SPARE = 3;

  private final LineBlocks lines;
  private final int first;
  private final double[] middle;
  private final double[] space;
  private final double[] straight;
  private final int half;

  private Retrace(LineBlocks lines, int first, double[] middle, double[] space) {
    this.lines = lines;
    this.first = first;
    this.middle = middle;
    this.space = space;
    this.straight = line(middle);
    double most = 0;
    for (int i = 0; i < middle.length; i++) {
      most = Math.max(most, Math.abs(middle[i] - straight[i]));
    }
    this.half = (int) Math.ceil((most + SET.reach() * space[0]) / SET.step());
  }

  /** Changes the middle heights, one per block from block {@code first} on. */
  static void straighten(LineBlocks lines, int first, double[] middle, double[] space) {
    if (middle.length > 1) {
      new Retrace(lines, first, middle, space).run();
    }
  }

  private void run() {
    int n = middle.length;
    int states = 2 * half + 1;
    float[] cost = new float[states];
    float[] moved = new float[states];
    float[] here = new float[states];
    short[][] from = new short[n][states];
    for (int i = 0; i < n; i++) {
      float step = (float) (SET.move() * SET.step() / space[i]);
      short[] way = from[i];
      for (int j = 0; j < states; j++) {
        way[j] = (short) j;
        moved[j] = cost[j];
      }
      for (int j = 1; j < states; j++) {
        if (moved[j - 1] + step < moved[j]) {
          moved[j] = moved[j - 1] + step;
          way[j] = way[j - 1];
        }
      }
      for (int j = states - 2; j >= 0; j--) {
        if (moved[j + 1] + step < moved[j]) {
          moved[j] = moved[j + 1] + step;
          way[j] = way[j + 1];
        }
      }
      missing(i, here);
      for (int j = 0; j < states; j++) {
        cost[j] = moved[j] + here[j];
      }
    }
    int at = 0;
    for (int j = 0; j < states; j++) {
      at = cost[j] < cost[at] ? j : at;
    }
    for (int i = n - 1; i >= 0; i--) {
      middle[i] = straight[i] + (at - half) * SET.step();
      at = from[i][at];
    }
  }

  /** Counts the lines that are missing in a block for each height. */
  private void missing(int i, float[] out) {
    double s = space[i];
    int low = (int) Math.floor(middle[i] - (SET.reach() + 2) * s) - SPARE;
    int high = (int) Math.ceil(middle[i] + (SET.reach() + 2) * s) + SPARE;
    float[] bad = bad(first + i, low, high, Math.max(1, (int) Math.round(SET.tolerance() * s)));
    for (int j = 0; j < out.length; j++) {
      double y = straight[i] + (j - half) * SET.step();
      if (Math.abs(y - middle[i]) > SET.reach() * s) {
        out[j] = SET.beyond();
        continue;
      }
      float sum = 0;
      for (int k = -2; k <= 2; k++) {
        sum += bad[(int) Math.round(y + k * s) - low];
      }
      out[j] = sum;
    }
  }

  /** Returns what a line costs at each height from low to high. */
  private float[] bad(int block, int low, int high, int tolerance) {
    int from = low - tolerance;
    int reach = 2 * tolerance;
    int n = high - low + 1;
    float[] bad = new float[n];
    // Where a line, and where something not bare, was last seen.
    int lined = -1;
    int hidden = -1;
    for (int k = 0; k < n + reach; k++) {
      if (lines.at(block, from + k) > SET.line()) {
        lined = k;
      }
      if (!lines.isBare(block, from + k)) {
        hidden = k;
      }
      int j = k - reach;
      if (j >= 0) {
        bad[j] = hidden < j ? 1 : lined < j ? SET.hidden() : 0;
      }
    }
    return bad;
  }

  /** Returns the straight line nearest to most of a curve: through medians of its two halves. */
  private static double[] line(double[] y) {
    int n = y.length;
    double left = median(y, 0, n / 2);
    double right = median(y, n - n / 2, n);
    double slope = (right - left) / Math.max(1, n - n / 2);
    double[] line = new double[n];
    for (int i = 0; i < n; i++) {
      line[i] = left + slope * (i - n / 4.0);
    }
    return line;
  }

  private static double median(double[] v, int from, int to) {
    double[] part = java.util.Arrays.copyOfRange(v, from, Math.max(from + 1, to));
    java.util.Arrays.sort(part);
    return part[part.length / 2];
  }
}
