package org.barmap.fit;

import java.util.Arrays;
import java.util.function.ToDoubleFunction;

/** The arithmetic of fitting: shares, logarithms of odds, and the parameters of greatest height. */
final class Likelihood {

  /** Numbers the pull towards no effect counts as; in nats for a parameter off by one. */
  static final double PULL = 0.5;

  private Likelihood() {}

  /** A share of events, half an event added on either side. */
  static double share(long events, long of) {
    return (events + 0.5) / (of + 1);
  }

  static double logit(double p) {
    double inside = Math.max(0.01, Math.min(0.99, p));
    return Math.log(inside / (1 - inside));
  }

  static double logistic(double odds, boolean right) {
    double p = Math.max(1e-6, Math.min(1 - 1e-6, 1 / (1 + Math.exp(-odds))));
    return Math.log(right ? p : 1 - p);
  }

  /** Goes up along one parameter after the other, in steps that shrink. */
  static double[] climb(double[] start, ToDoubleFunction<double[]> height) {
    double[] x = start.clone();
    double best = height.applyAsDouble(x);
    for (double step = 1; step > 0.01; step /= 2) {
      boolean higher = true;
      for (int round = 0; higher && round < 60; round++) {
        higher = false;
        for (int i = 0; i < x.length; i++) {
          for (double d : new double[] {-step, step}) {
            double[] next = Arrays.copyOf(x, x.length);
            next[i] += d;
            double h = height.applyAsDouble(next);
            if (h > best + 1e-9) {
              best = h;
              x = next;
              higher = true;
            }
          }
        }
      }
    }
    return x;
  }
}
