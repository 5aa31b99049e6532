package org.barmap.staff;

import java.util.Arrays;
import org.barmap.page.pixel.Shift;
import org.barmap.page.pixel.WorkStep;

/**
 * How much each place of the page looks like the middle of five lines at equal distances.
 *
 * <p>For every block and height: the mean of five lines, less what stands between the lines, for
 * the best of a few staff spaces around the usual one.
 */
final class Comb {

  private static final StaffSettings.Middles SET = StaffSettings.STANDARD.middles();

  private final float[][] values;

  private Comb(float[][] values) {
    this.values = values;
  }

  static Comb of(LineBlocks lines, double space) {
    float[][] values = new float[lines.count()][lines.height()];
    WorkStep.STAVES.spread(
        values.length,
        b -> {
          float[] sum = new float[lines.height()];
          float[] moved = new float[lines.height()];
          for (double share : SET.spaces()) {
            Arrays.fill(sum, 0);
            for (int k = -2; k <= 2; k++) {
              add(lines.block(b), k * space * share, SET.line(), moved, sum);
            }
            for (int k = -Staff.SIXTH; k <= Staff.SIXTH; k += 2) {
              add(lines.block(b), k * space * share / 2, SET.between(), moved, sum);
            }
            raise(sum, values[b]);
          }
        });
    return new Comb(values);
  }

  private static void add(float[] line, double by, float weight, float[] moved, float[] sum) {
    Shift.of(line, (int) Math.round(by), 0, moved);
    for (int y = 0; y < sum.length; y++) {
      sum[y] += weight * moved[y];
    }
  }

  private static void raise(float[] sum, float[] top) {
    for (int y = 0; y < sum.length; y++) {
      top[y] = Math.max(top[y], sum[y]);
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
