package org.barmap.reckon.solve;

import java.util.Arrays;
import org.barmap.reckon.solve.Solution.Choice;

/**
 * Compares the open bar's number with a printed one.
 *
 * @param values numbers it may say
 * @param weights of these
 * @param base weight of every number, listed or not: the print was misread
 */
public record Observe(int[] values, double[] weights, double base) implements Step {

  @Override
  public boolean equals(Object o) {
    return o instanceof Observe m
        && Arrays.equals(values, m.values)
        && Arrays.equals(weights, m.weights)
        && base == m.base;
  }

  @Override
  public int hashCode() {
    return 31 * Arrays.hashCode(values) + Arrays.hashCode(weights);
  }

  @Override
  public void sum(double[] in, double[] out) {
    Move.scaled(in, base, out);
    for (int i = 0; i < values.length; i++) {
      if (values[i] >= 0 && values[i] < in.length) {
        out[values[i]] += in[values[i]] * weights[i];
      }
    }
  }

  @Override
  public void sumBack(double[] in, double[] out) {
    sum(in, out);
  }

  @Override
  public int largest(double weight) {
    int most = 0;
    for (int i = 0; i < values.length; i++) {
      most = weights[i] > weight ? Math.max(most, values[i]) : most;
    }
    return most;
  }

  @Override
  public int max(double[] in, double[] out, short[] back) {
    Arrays.fill(back, (short) 0);
    sum(in, out);
    return 0;
  }

  @Override
  public void choices(Around around, int from, int to, Choice[] out, int at) {
    double p = around.number(to, around.all());
    out[at] = new Choice(from, to, p, -1, 1 - p, p);
  }
}
