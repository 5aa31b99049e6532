package org.barmap.reckon.solve;

import java.util.List;
import org.barmap.reckon.solve.Solution.Choice;

/**
 * Two moves of a few bars each, taken in one pass over the states: the barlines missed in a cell
 * and the line at its end. The same as the two steps one after the other.
 *
 * @param first the move made first; weight by shift
 * @param second the move made second; weight by shift
 * @param sum weight of all ways to add so many bars
 * @param best weight of the best way to
 * @param split how many of them the first move adds then
 */
record Pair(double[] first, double[] second, double[] sum, double[] best, int[] split)
    implements Step {

  /** Shifts 0 to 3 together; shorter ones have weight 0 beyond theirs. */
  private static final int TAPS = LANES;

  /** Tells whether two steps may be a pair: together they add three bars at most. */
  static boolean fits(Step a, Step b) {
    return a instanceof Move x && b instanceof Move y && most(x) + most(y) < TAPS;
  }

  private static int most(Move move) {
    int most = 0;
    for (int shift : move.shifts()) {
      most = Math.max(most, shift);
    }
    return move.otherMax() < 0 ? most : TAPS;
  }

  /** Pairs two moves of a few bars. */
  static Pair of(Move a, Move b) {
    double[] first = byShift(a);
    double[] second = byShift(b);
    double[] sum = new double[TAPS];
    double[] best = new double[TAPS];
    int[] split = new int[TAPS];
    for (int i = 0; i < first.length; i++) {
      for (int j = 0; j < second.length; j++) {
        double w = first[i] * second[j];
        sum[i + j] += w;
        if (w > best[i + j]) {
          best[i + j] = w;
          split[i + j] = i;
        }
      }
    }
    return new Pair(first, second, sum, best, split);
  }

  private static double[] byShift(Move move) {
    double[] out = new double[most(move) + 1];
    for (int i = 0; i < move.shifts().length; i++) {
      out[move.shifts()[i]] += move.weights()[i];
    }
    return out;
  }

  @Override
  public void sum(double[] in, double[] out) {
    double a = sum[0];
    double b = sum[1];
    double c = sum[2];
    double d = sum[3];
    out[0] = a * in[0];
    out[1] = a * in[1] + b * in[0];
    out[2] = a * in[2] + b * in[1] + c * in[0];
    for (int s = LAST; s < in.length; s++) {
      out[s] = a * in[s] + b * in[s - 1] + c * in[s - 2] + d * in[s - LAST];
    }
  }

  @Override
  public void sumBack(double[] in, double[] out) {
    double a = sum[0];
    double b = sum[1];
    double c = sum[2];
    double d = sum[3];
    int n = in.length;
    for (int s = 0; s < n - LAST; s++) {
      out[s] = a * in[s] + b * in[s + 1] + c * in[s + 2] + d * in[s + LAST];
    }
    out[n - LAST] = a * in[n - LAST] + b * in[n - 2] + c * in[n - 1];
    out[n - 2] = a * in[n - 2] + b * in[n - 1];
    out[n - 1] = a * in[n - 1];
  }

  @Override
  public int max(double[] in, double[] out, short[] back) {
    double one = 0;
    double two = 0;
    double three = 0;
    for (int s = 0; s < in.length; s++) {
      double now = in[s];
      double top = best[0] * now;
      short shift = 0;
      if (best[1] * one > top) {
        top = best[1] * one;
        shift = 1;
      }
      if (best[2] * two > top) {
        top = best[2] * two;
        shift = 2;
      }
      if (best[3] * three > top) {
        top = best[3] * three;
        shift = LAST;
      }
      out[s] = top;
      back[s] = shift;
      three = two;
      two = one;
      one = now;
    }
    return 0;
  }

  @Override
  public void sure(int from, int to, int states, List<Choice> out) {
    int middle = middle(from, to);
    out.add(new Choice(from, middle, 1, -1, 0, 1));
    out.add(new Choice(middle, to, 1, -1, 0, 1));
  }

  /** The state between the two moves on the best way from one state to another. */
  private int middle(int from, int to) {
    return from + split[to - from];
  }

  @Override
  public int width() {
    return 2;
  }

  @Override
  public void choices(Around around, int from, int to, Choice[] out, int at) {
    double[] adding = around.addingUpTo3();
    double all = 0;
    for (int k = 0; k < TAPS; k++) {
      all += sum[k] * adding[k];
    }
    int middle = middle(from, to);
    out[at] = choice(first, second, adding, all, from, middle, through(around, middle) / all);
    out[at + 1] = choice(second, first, adding, all, middle, to, around.number(to, all));
  }

  /** Weight of all paths on which the bar open between the two moves has this number. */
  private double through(Around around, int state) {
    double before = 0;
    double after = 0;
    for (int k = 0; k < first.length && k <= state; k++) {
      before += first[k] * around.before()[state - k];
    }
    for (int k = 0; k < second.length && state + k < around.beta().length; k++) {
      after += second[k] * around.beta()[state + k];
    }
    return before * after;
  }

  private static Choice choice(
      double[] own, double[] other, double[] adding, double all, int from, int to, double number) {
    double mine = 0;
    double most = 0;
    int mostShift = -1;
    for (int i = 0; i < own.length; i++) {
      double p = 0;
      for (int j = 0; j < other.length; j++) {
        p += own[i] * other[j] * adding[i + j];
      }
      if (i == to - from) {
        mine = p;
      } else if (p > most) {
        most = p;
        mostShift = i;
      }
    }
    return new Choice(from, to, mine / all, mostShift, most / all, number);
  }
}
