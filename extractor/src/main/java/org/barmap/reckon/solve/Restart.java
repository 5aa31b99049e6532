package org.barmap.reckon.solve;

import org.barmap.reckon.solve.Solution.Choice;

/**
 * A place where counting may start again.
 *
 * @param stay weight of counting on
 * @param toOne weight of starting at 1
 * @param toZero weight of starting with a pickup
 * @param elsewhere weight of going on at any one number: bars of the book are missing here
 */
public record Restart(double stay, double toOne, double toZero, double elsewhere) implements Step {

  /** Tells whether nothing before it says anything about what comes after it. */
  public boolean forgets() {
    return stay == 0;
  }

  /** Weight of jumping to a state. */
  double jump(int state) {
    return elsewhere + (state == 1 ? toOne : state == 0 ? toZero : 0);
  }

  /** Four sums side by side, because one addition has to wait for the one before. */
  private static double total(double[] values) {
    double a = 0;
    double b = 0;
    double c = 0;
    double d = 0;
    int s = 0;
    for (; s + LANES <= values.length; s += LANES) {
      a += values[s];
      b += values[s + 1];
      c += values[s + 2];
      d += values[s + LAST];
    }
    for (; s < values.length; s++) {
      a += values[s];
    }
    return a + b + c + d;
  }

  @Override
  public void sum(double[] in, double[] out) {
    double all = total(in);
    double anywhere = all * elsewhere;
    for (int s = 0; s < in.length; s++) {
      out[s] = in[s] * stay + anywhere;
    }
    out[0] += all * toZero;
    out[1] += all * toOne;
  }

  @Override
  public void sumBack(double[] in, double[] out) {
    double jumped = in[1] * toOne + in[0] * toZero + total(in) * elsewhere;
    for (int s = 0; s < in.length; s++) {
      out[s] = in[s] * stay + jumped;
    }
  }

  @Override
  public void maxBack(double[] in, double[] out) {
    double jumped = 0;
    for (int s = 0; s < in.length; s++) {
      jumped = Math.max(jumped, jump(s) * in[s]);
    }
    for (int s = 0; s < in.length; s++) {
      out[s] = Math.max(stay * in[s], jumped);
    }
  }

  @Override
  public int likeliest(int before) {
    return toOne > 0.5 ? 1 : before;
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
  public void choices(Around around, int from, int to, Choice[] out, int at) {
    double[] before = around.before();
    double[] beta = around.beta();
    double all = total(before);
    double staying = around.adding(0) * stay;
    double jumping = all * (total(beta) * elsewhere + beta[1] * toOne + beta[0] * toZero);
    double any = staying + jumping;
    double p = any > 0 ? staying / any : 0;
    double own = from == to ? p : 1 - p;
    out[at] = new Choice(from, to, own, -1, 1 - own, around.number(to, any));
  }
}
