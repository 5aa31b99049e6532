package org.barmap.staff;

/**
 * How much each place of the page looks like the middle of five lines at equal distances.
 *
 * <p>For every block and height: the mean of five lines, less what stands between the lines, for
 * the best of a few staff spaces around the usual one.
 */
final class Comb {

  private static final double[] SPACES = {0.8, 0.86, 0.92, 0.97, 1.02, 1.08, 1.15, 1.23};

  private final float[][] values;

  private Comb(float[][] values) {
    this.values = values;
  }

  static Comb of(LineBlocks lines, double space) {
    int h = lines.height();
    float[][] best = new float[lines.count()][h];
    float[] sum = new float[h];
    for (int b = 0; b < lines.count(); b++) {
      float[] line = lines.block(b);
      for (double share : SPACES) {
        double s = space * share;
        java.util.Arrays.fill(sum, 0);
        for (int k = -2; k <= 2; k++) {
          add(line, (int) Math.round(k * s), 0.2f, sum);
        }
        for (int k = -3; k <= 3; k += 2) {
          add(line, (int) Math.round(k * s / 2), -0.1f, sum);
        }
        float[] top = best[b];
        for (int y = 0; y < h; y++) {
          top[y] = Math.max(top[y], sum[y]);
        }
      }
    }
    return new Comb(best);
  }

  private static void add(float[] line, int shift, float weight, float[] sum) {
    int from = Math.max(0, -shift);
    int to = Math.min(line.length, line.length - shift);
    for (int y = from; y < to; y++) {
      sum[y] += weight * line[y + shift];
    }
  }

  /** Returns the values of a block by height, 0 to 1; not to be changed. */
  float[] block(int b) {
    return values[b];
  }

  int count() {
    return values.length;
  }
}
