package org.barmap.reckon;

import java.util.Arrays;
import org.barmap.reckon.Solution.Choice;

/**
 * A place where counting may start again.
 *
 * @param stay weight of counting on
 * @param toOne weight of starting at 1
 * @param toZero weight of starting with a pickup
 * @param elsewhere weight of going on at any one number: bars of the book are missing here
 */
record Restart(double stay, double toOne, double toZero, double elsewhere) implements Step {

  /** Weight of jumping to a state. */
  private double jump(int state) {
    return elsewhere + (state == 1 ? toOne : state == 0 ? toZero : 0);
  }

  @Override
  public void sum(double[] in, double[] out) {
    double all = Arrays.stream(in).sum();
    for (int s = 0; s < in.length; s++) {
      out[s] += in[s] * stay + all * jump(s);
    }
  }

  @Override
  public void sumBack(double[] in, double[] out) {
    double jumped = in[1] * toOne + in[0] * toZero + Arrays.stream(in).sum() * elsewhere;
    for (int s = 0; s < in.length; s++) {
      out[s] += in[s] * stay + jumped;
    }
  }

  @Override
  public int max(double[] in, double[] out, short[] back) {
    int from = 0;
    for (int s = 1; s < in.length; s++) {
      from = in[s] > in[from] ? s : from;
    }
    for (int s = 0; s < in.length; s++) {
      double kept = in[s] * stay;
      double jumped = in[from] * jump(s);
      out[s] = Math.max(kept, jumped);
      back[s] = jumped > kept ? JUMP : 0;
    }
    return from;
  }

  @Override
  public Choice choice(float[] before, float[] after, double[] beta, int from, int to) {
    double staying = 0;
    double all = 0;
    double any = 0;
    for (int s = 0; s < beta.length; s++) {
      staying += before[s] * stay * beta[s];
      all += before[s];
    }
    for (int s = 0; s < beta.length; s++) {
      any += (before[s] * stay + all * jump(s)) * beta[s];
    }
    double p = any > 0 ? staying / any : 0;
    double own = from == to ? p : 1 - p;
    return new Choice(from, to, own, -1, 1 - own, Step.stateProbability(after, beta, to));
  }
}
