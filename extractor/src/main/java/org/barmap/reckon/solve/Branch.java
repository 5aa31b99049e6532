package org.barmap.reckon.solve;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.barmap.reckon.solve.Solution.Choice;

/**
 * An ending after which counting goes back to where the ending began, because the next one is
 * numbered like it.
 *
 * <p>Whatever is counted inside, the open bar's number is the same after as before, so to the book
 * around it the whole ending weighs as much as all ways through it from that number: the solver
 * stays exact, although how far counting goes back is not known beforehand.
 */
public final class Branch implements Step {

  /**
   * All ways through the ending by the number it begins with.
   *
   * @param sums of their weights, the largest as 1
   * @param maxima the best way's, the largest as 1
   * @param log natural logarithm of what the sums were divided by
   */
  private record Ways(double[] sums, double[] maxima, double log) {}

  private final List<Step> steps;
  private Ways ways = new Ways(new double[0], new double[0], 0);

  /**
   * Prepares an ending.
   *
   * @param steps those inside it, in reading order; no branch among them
   */
  Branch(List<Step> steps) {
    this.steps = List.copyOf(steps);
  }

  @Override
  public boolean equals(Object o) {
    return o instanceof Branch b && steps.equals(b.steps);
  }

  @Override
  public int hashCode() {
    return steps.hashCode();
  }

  /**
   * Folds steps into branches.
   *
   * @param steps in reading order; the last one of each branch stands for going back and does
   *     nothing itself
   * @param branches index of the first step of each and of its last, in order, apart
   */
  public static List<Step> fold(List<Step> steps, List<int[]> branches) {
    List<Step> out = new ArrayList<>();
    int at = 0;
    for (int[] branch : branches) {
      out.addAll(steps.subList(at, branch[0]));
      out.add(new Branch(steps.subList(branch[0], branch[1])));
      at = branch[1] + 1;
    }
    out.addAll(steps.subList(at, steps.size()));
    return List.copyOf(out);
  }

  @Override
  public int width() {
    return steps.size() + 1;
  }

  /** Weighs them once; two passes may ask at the same time. */
  private synchronized Ways ways(int states) {
    if (ways.sums().length != states) {
      double[] sum = new double[states];
      double[] max = new double[states];
      Arrays.fill(sum, 1);
      Arrays.fill(max, 1);
      double[] spare = new double[states];
      double log = 0;
      for (int t = steps.size() - 1; t >= 0; t--) {
        steps.get(t).sumBack(sum, spare);
        System.arraycopy(spare, 0, sum, 0, states);
        log += Solver.scale(sum);
        steps.get(t).maxBack(max, spare);
        System.arraycopy(spare, 0, max, 0, states);
        Solver.scale(max);
      }
      ways = new Ways(sum, max, log);
    }
    return ways;
  }

  @Override
  public List<Step> single() {
    return steps;
  }

  @Override
  public void sure(int from, int to, int states, List<Choice> out) {
    out.addAll(bestPath(from, states));
  }

  @Override
  public synchronized double log() {
    return ways.log();
  }

  @Override
  public void sum(double[] in, double[] out) {
    double[] sums = ways(in.length).sums();
    for (int s = 0; s < in.length; s++) {
      out[s] = in[s] * sums[s];
    }
  }

  @Override
  public void sumBack(double[] in, double[] out) {
    sum(in, out);
  }

  @Override
  public int max(double[] in, double[] out, short[] back) {
    double[] maxima = ways(in.length).maxima();
    Arrays.fill(back, (short) 0);
    for (int s = 0; s < in.length; s++) {
      out[s] = in[s] * maxima[s];
    }
    return 0;
  }

  /** The best way through the ending from a number, each choice as if it were sure. */
  private List<Choice> bestPath(int from, int states) {
    List<Choice> out = new ArrayList<>(inside(only(from, states), from).bestPath());
    out.add(new Choice(last(out, from), from, 1, -1, 0, 1));
    return out;
  }

  @Override
  public void choices(Around around, int from, int to, Choice[] out, int at) {
    int n = around.beta().length;
    double[] entering = new double[n];
    for (int s = 0; s < n; s++) {
      entering[s] = around.before()[s] * around.beta()[s];
    }
    List<Choice> inside = inside(entering, from).solve().choices();
    for (int i = 0; i < inside.size(); i++) {
      out[at + i] = inside.get(i);
    }
    double p = around.number(to, around.all());
    out[at + inside.size()] = new Choice(last(inside, from), to, p, -1, 1 - p, p);
  }

  private Solver inside(double[] entering, int from) {
    return new Solver(steps, entering, only(from, entering.length));
  }

  private static int last(List<Choice> inside, int from) {
    return inside.isEmpty() ? from : inside.get(inside.size() - 1).after();
  }

  private static double[] only(int state, int states) {
    double[] out = new double[states];
    out[state] = 1;
    return out;
  }
}
