package org.barmap.reckon.solve;

import java.util.Arrays;
import org.barmap.reckon.solve.Solution.Choice;

/**
 * Adds bars: a barline is crossed, a rest stands for several bars, a barline may have been missed.
 *
 * @param shifts how many bars each alternative adds, at least 0
 * @param weights of the alternatives
 * @param other weight of every single shift from {@code otherMin} to {@code otherMax}, beside the
 *     alternatives
 * @param otherMin smallest shift of that kind
 * @param otherMax largest shift of that kind; -1 for none
 */
public record Move(int[] shifts, double[] weights, double other, int otherMin, int otherMax)
    implements Step {

  /**
   * Forward weight, relative to the best state's, below which a state no longer counts when the
   * next best count is looked for.
   */
  private static final double NEGLIGIBLE = 1e-6;

  @Override
  public boolean equals(Object o) {
    return o instanceof Move m
        && Arrays.equals(shifts, m.shifts)
        && Arrays.equals(weights, m.weights)
        && other == m.other
        && otherMin == m.otherMin
        && otherMax == m.otherMax;
  }

  @Override
  public int hashCode() {
    return 31 * Arrays.hashCode(shifts) + Arrays.hashCode(weights);
  }

  /** A move with listed alternatives only. */
  public static Move of(int[] shifts, double[] weights) {
    return new Move(shifts, weights, 0, 0, -1);
  }

  /** Crosses a barline that is one with probability {@code p}. */
  public static Move line(double p) {
    return of(new int[] {1, 0}, new double[] {p, 1 - p});
  }

  /** Adds a fixed number of bars. */
  public static Move fixed(int shift) {
    return of(new int[] {shift}, new double[] {1});
  }

  /** Weight of one shift, from the list and from "any other". */
  public double weight(int shift) {
    double weight = otherMin <= shift && shift <= otherMax ? other : 0;
    for (int i = 0; i < shifts.length; i++) {
      weight += shifts[i] == shift ? weights[i] : 0;
    }
    return weight;
  }

  /** Writes a multiple. */
  static void scaled(double[] in, double weight, double[] out) {
    for (int s = 0; s < in.length; s++) {
      out[s] = weight * in[s];
    }
  }

  /** Adds the alternatives, four in one pass. */
  private void addAll(double[] in, double[] out) {
    int n = in.length;
    int i = 0;
    for (; i + LANES <= shifts.length; i += LANES) {
      int a = shifts[i];
      int b = shifts[i + 1];
      int c = shifts[i + 2];
      int d = shifts[i + LAST];
      // local copies, because writing to out might change the array's
      double u = weights[i];
      double v = weights[i + 1];
      double w = weights[i + 2];
      double x = weights[i + LAST];
      int most = Math.max(Math.max(a, b), Math.max(c, d));
      for (int k = i; k < i + LANES; k++) {
        add(in, weights[k], shifts[k], Math.min(n, most), out);
      }
      for (int s = most; s < n; s++) {
        out[s] += u * in[s - a] + v * in[s - b] + w * in[s - c] + x * in[s - d];
      }
    }
    for (; i < shifts.length; i++) {
      add(in, weights[i], shifts[i], n, out);
    }
  }

  /** Adds a multiple, {@code shift} states further on, up to a state. */
  private static void add(double[] in, double weight, int shift, int end, double[] out) {
    for (int s = shift; s < end; s++) {
      out[s] += weight * in[s - shift];
    }
  }

  /** The same as {@link #addAll} the other way. */
  private void addAllBack(double[] in, double[] out) {
    int n = in.length;
    int i = 0;
    for (; i + LANES <= shifts.length; i += LANES) {
      int a = shifts[i];
      int b = shifts[i + 1];
      int c = shifts[i + 2];
      int d = shifts[i + LAST];
      // local copies, because writing to out might change the array's
      double u = weights[i];
      double v = weights[i + 1];
      double w = weights[i + 2];
      double x = weights[i + LAST];
      int end = Math.max(0, n - Math.max(Math.max(a, b), Math.max(c, d)));
      for (int s = 0; s < end; s++) {
        out[s] += u * in[s + a] + v * in[s + b] + w * in[s + c] + x * in[s + d];
      }
      for (int k = i; k < i + LANES; k++) {
        addBack(in, weights[k], shifts[k], end, out);
      }
    }
    for (; i < shifts.length; i++) {
      addBack(in, weights[i], shifts[i], 0, out);
    }
  }

  private static void addBack(double[] in, double weight, int shift, int start, double[] out) {
    for (int s = start; s + shift < in.length; s++) {
      out[s] += weight * in[s + shift];
    }
  }

  /** Takes the best of four alternatives where it is larger. */
  private void raise(double[] in, int i, double[] out, short[] back) {
    int a = shifts[i];
    int b = shifts[i + 1];
    int c = shifts[i + 2];
    int d = shifts[i + LAST];
    double u = weight(a);
    double v = weight(b);
    double w = weight(c);
    double x = weight(d);
    int most = Math.min(in.length, Math.max(Math.max(a, b), Math.max(c, d)));
    for (int k = i; k < i + LANES; k++) {
      raise(in, weight(shifts[k]), shifts[k], 0, most, out, back);
    }
    for (int s = most; s < in.length; s++) {
      double first = Math.max(u * in[s - a], v * in[s - b]);
      double second = Math.max(w * in[s - c], x * in[s - d]);
      double top = Math.max(first, second);
      if (top > out[s]) {
        out[s] = top;
        int shift =
            top == u * in[s - a] ? a : top == v * in[s - b] ? b : top == w * in[s - c] ? c : d;
        back[s] = (short) shift;
      }
    }
  }

  /** Takes a multiple {@code shift} states further on where it is larger. */
  private static void raise(
      double[] in, double weight, int shift, int start, int end, double[] out, short[] back) {
    for (int s = Math.max(start, shift); s < end; s++) {
      double v = weight * in[s - shift];
      if (v > out[s]) {
        out[s] = v;
        back[s] = (short) shift;
      }
    }
  }

  @Override
  public void sum(double[] in, double[] out) {
    Arrays.fill(out, 0);
    addAll(in, out);
    if (other > 0) {
      double window = 0;
      for (int s = otherMin; s < in.length; s++) {
        window += in[s - otherMin] - (s > otherMax ? in[s - otherMax - 1] : 0);
        out[s] += other * Math.max(0, window);
      }
    }
  }

  @Override
  public void sumBack(double[] in, double[] out) {
    int n = in.length;
    Arrays.fill(out, 0);
    addAllBack(in, out);
    if (other > 0) {
      double window = 0;
      for (int s = n - 1 - otherMin; s >= 0; s--) {
        window += in[s + otherMin] - (s + otherMax + 1 < n ? in[s + otherMax + 1] : 0);
        out[s] += other * Math.max(0, window);
      }
    }
  }

  @Override
  public void maxBack(double[] in, double[] out) {
    int n = in.length;
    Arrays.fill(out, 0);
    int most = Math.max(otherMax, Arrays.stream(shifts).max().orElse(0));
    for (int shift = 0; shift <= most; shift++) {
      double weight = weight(shift);
      for (int s = 0; weight > 0 && s + shift < n; s++) {
        out[s] = Math.max(out[s], weight * in[s + shift]);
      }
    }
  }

  @Override
  public int likeliest(int before) {
    int best = 0;
    for (int i = 1; i < shifts.length; i++) {
      best = weights[i] > weights[best] ? i : best;
    }
    return before + shifts[best];
  }

  @Override
  public int max(double[] in, double[] out, short[] back) {
    Arrays.fill(back, (short) 0);
    Arrays.fill(out, 0);
    int i = 0;
    for (; i + LANES <= shifts.length; i += LANES) {
      raise(in, i, out, back);
    }
    for (; i < shifts.length; i++) {
      raise(in, weight(shifts[i]), shifts[i], 0, in.length, out, back);
    }
    if (other > 0) {
      slide(in, out, back);
    }
    return 0;
  }

  /** Sliding window maximum over "any other shift", with a queue of falling values. */
  private void slide(double[] in, double[] out, short[] back) {
    int[] queue = new int[in.length];
    int head = 0;
    int tail = 0;
    for (int s = otherMin; s < in.length; s++) {
      while (tail > head && in[queue[tail - 1]] <= in[s - otherMin]) {
        tail--;
      }
      queue[tail++] = s - otherMin;
      if (queue[head] < s - otherMax) {
        head++;
      }
      double v = other * in[queue[head]];
      if (v > out[s]) {
        out[s] = v;
        back[s] = (short) (s - queue[head]);
      }
    }
  }

  @Override
  public void choices(Around around, int from, int to, Choice[] out, int at) {
    double all = around.all();
    if (!(all > 0)) {
      out[at] = new Choice(from, to, 0, -1, 0, 0);
      return;
    }
    double own = weight(to - from) * around.adding(to - from);
    double best = 0;
    int bestShift = -1;
    double[] by = otherMax >= 0 ? adding(around) : new double[0];
    for (int shift = otherMin; shift <= otherMax; shift++) {
      double p = other * by[shift];
      if (shift != to - from && p > best) {
        best = p;
        bestShift = shift;
      }
    }
    for (int i = 0; i < shifts.length; i++) {
      double p = shifts[i] < by.length ? by[shifts[i]] : around.adding(shifts[i]);
      double w = weight(shifts[i]) * p;
      if (shifts[i] != to - from && w > best) {
        best = w;
        bestShift = shifts[i];
      }
    }
    if (bestShift >= 0) {
      best = weight(bestShift) * around.adding(bestShift);
    }
    out[at] = new Choice(from, to, own / all, bestShift, best / all, around.number(to, all));
  }

  /** Weight of all likely paths by how many bars they add here, but for the step's own weight. */
  private double[] adding(Around around) {
    double[] before = around.before();
    double[] beta = around.beta();
    double[] by = new double[otherMax + 1];
    double top = 0;
    for (double b : before) {
      top = Math.max(top, b);
    }
    for (int s = 0; s < beta.length; s++) {
      double weight = before[s];
      if (weight > NEGLIGIBLE * top) {
        int most = Math.min(otherMax, beta.length - 1 - s);
        for (int shift = 0; shift <= most; shift++) {
          by[shift] += weight * beta[s + shift];
        }
      }
    }
    return by;
  }
}
