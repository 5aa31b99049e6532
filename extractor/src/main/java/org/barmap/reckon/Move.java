package org.barmap.reckon;

import java.util.Arrays;
import java.util.stream.IntStream;
import org.barmap.reckon.Solution.Choice;

/**
 * Adds bars: a barline is crossed, a rest stands for several bars, a barline may have been missed.
 *
 * @param shifts how many bars each alternative adds, at least 0
 * @param weights of the alternatives
 * @param other weight of every single shift from 0 to {@code otherMax}, beside the alternatives
 * @param otherMax largest shift of that kind; -1 for none
 */
record Move(int[] shifts, double[] weights, double other, int otherMax) implements Step {

  /**
   * Forward weight, relative to the best state's, below which a state no longer counts in a sum.
   */
  private static final double NEGLIGIBLE = 1e-9;

  /** A move with listed alternatives only. */
  static Move of(int[] shifts, double[] weights) {
    return new Move(shifts, weights, 0, -1);
  }

  /** Crosses a barline that is one with probability {@code p}. */
  static Move line(double p) {
    return of(new int[] {1, 0}, new double[] {p, 1 - p});
  }

  /** Adds a fixed number of bars. */
  static Move fixed(int shift) {
    return of(new int[] {shift}, new double[] {1});
  }

  /** Weight of one shift, from the list and from "any other". */
  double weight(int shift) {
    double weight = shift <= otherMax ? other : 0;
    for (int i = 0; i < shifts.length; i++) {
      weight += shifts[i] == shift ? weights[i] : 0;
    }
    return weight;
  }

  @Override
  public void sum(double[] in, double[] out) {
    for (int i = 0; i < shifts.length; i++) {
      for (int s = shifts[i]; s < in.length; s++) {
        out[s] += weights[i] * in[s - shifts[i]];
      }
    }
    if (other > 0) {
      double window = 0;
      for (int s = 0; s < in.length; s++) {
        window += in[s] - (s > otherMax ? in[s - otherMax - 1] : 0);
        out[s] += other * Math.max(0, window);
      }
    }
  }

  @Override
  public void sumBack(double[] in, double[] out) {
    int n = in.length;
    for (int i = 0; i < shifts.length; i++) {
      for (int s = 0; s + shifts[i] < n; s++) {
        out[s] += weights[i] * in[s + shifts[i]];
      }
    }
    if (other > 0) {
      double window = 0;
      for (int s = n - 1; s >= 0; s--) {
        window += in[s] - (s + otherMax + 1 < n ? in[s + otherMax + 1] : 0);
        out[s] += other * Math.max(0, window);
      }
    }
  }

  @Override
  public int max(double[] in, double[] out, short[] back) {
    Arrays.fill(back, (short) 0);
    for (int shift : shifts) {
      double w = weight(shift);
      for (int s = shift; s < in.length; s++) {
        double v = w * in[s - shift];
        if (v > out[s]) {
          out[s] = v;
          back[s] = (short) shift;
        }
      }
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
    for (int s = 0; s < in.length; s++) {
      while (tail > head && in[queue[tail - 1]] <= in[s]) {
        tail--;
      }
      queue[tail++] = s;
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
  public Choice choice(float[] before, float[] after, double[] beta, int from, int to) {
    int n = beta.length;
    int most = Math.max(otherMax, Arrays.stream(shifts).max().orElse(0));
    int[] likely = IntStream.range(0, n).filter(s -> before[s] > NEGLIGIBLE).toArray();
    double all = 0;
    double own = 0;
    double best = 0;
    int bestShift = -1;
    for (int shift = 0; shift <= most; shift++) {
      double weight = weight(shift);
      if (weight <= 0) {
        continue;
      }
      double p = 0;
      for (int s : likely) {
        p += s + shift < n ? before[s] * beta[s + shift] : 0;
      }
      p *= weight;
      all += p;
      if (shift == to - from) {
        own = p;
      } else if (p > best) {
        best = p;
        bestShift = shift;
      }
    }
    double number = Step.stateProbability(after, beta, to);
    return all > 0
        ? new Choice(from, to, own / all, bestShift, best / all, number)
        : new Choice(from, to, 0, -1, 0, number);
  }
}
