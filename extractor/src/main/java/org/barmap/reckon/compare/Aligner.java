package org.barmap.reckon.compare;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import org.barmap.reckon.set.CompareSettings;
import org.barmap.reckon.set.ReckonSettings;

/**
 * Aligns two sequences at least total cost, by dynamic programming; one item of the first may take
 * several consecutive items of the second. A run of items without a partner costs much to begin and
 * little to go on (affine gap costs, Gotoh 1982), so that one cause stays one run.
 *
 * <p>Where the sequences are long, only cells near the diagonal are looked at.
 */
public final class Aligner {

  private static final CompareSettings.Limits SET = ReckonSettings.STANDARD.compare().limits();

  /** What an alignment costs. */
  public interface Costs {
    /**
     * How many items of the second item {@code i} of the first may take, 1 to {@link #SET.most()}.
     */
    int most(int i);

    /** How many it should take. */
    int usual(int i);

    /** Cost of item {@code i} taking items {@code from} to {@code to - 1} of the second. */
    double pair(int i, int from, int to);

    /** Cost of item {@code i} without a partner; {@code first} of a run or not. */
    double lone(int i, boolean first);

    /** Cost of item {@code j} of the second that belongs to none, before item {@code i}. */
    double extra(int i, int j, boolean first);
  }

  private static final int PAIR = 0;
  private static final int LONE = 1;
  private static final int EXTRA = 2;
  private static final int STATES = 3;

  /** Bits that a state takes among the ways back, and what is left of them by it. */
  private static final int BITS = 2;

  private static final int STATE = 3;

  private static final double NEVER = 1e15;

  /** One aligned item: the items {@code from} to {@code to - 1} of the second belong to it. */
  public record Taken(int from, int to) {
    /** Returns how many there are. */
    public int size() {
      return to - from;
    }
  }

  private final int first;
  private final int second;
  private final Costs costs;
  private final int[] low;
  private final int[] high;

  /** By row and column: how many a pair takes, times 64, and where each state came from. */
  private final int[][] back;

  /** Costs of the row at hand and the one before it, by state and column. */
  private double[][] now;

  private double[][] before;

  private Aligner(int first, int second, Costs costs) {
    this.first = first;
    this.second = second;
    this.costs = costs;
    this.low = new int[first + 1];
    this.high = new int[first + 1];
    this.back = new int[first + 1][];
    this.now = new double[STATES][second + 1];
    this.before = new double[STATES][second + 1];
  }

  /**
   * Aligns.
   *
   * @param first length of the first sequence
   * @param second length of the second
   * @return what each item of the first takes; empty where there are far too many of either
   */
  public static List<Taken> align(int first, int second, Costs costs) {
    Aligner aligner = new Aligner(first, second, costs);
    return aligner.bounded() <= SET.tooMany() ? aligner.run() : List.of();
  }

  /** Sets the bounds of each row; how many cells there are within. */
  private long bounded() {
    long total = 0;
    for (int i = 0; i < first; i++) {
      total += costs.usual(i);
    }
    boolean all = (first + 1L) * (second + 1L) <= SET.all();
    long band = all ? Integer.MAX_VALUE : Math.abs(total - second) + SET.band();
    long at = 0;
    long cells = 0;
    for (int i = 0; i <= first; i++) {
      low[i] = (int) Math.max(0, Math.min(second, at - band));
      high[i] = (int) Math.min(second, at + band);
      cells += high[i] - low[i] + 1L;
      at += i < first ? costs.usual(i) : 0;
    }
    return cells;
  }

  private List<Taken> run() {
    fill(now);
    for (int i = 0; i <= first; i++) {
      double[][] swap = before;
      before = now;
      now = swap;
      fill(now);
      back[i] = new int[high[i] - low[i] + 1];
      for (int j = low[i]; j <= high[i]; j++) {
        cell(i, j);
      }
    }
    return traced();
  }

  private static void fill(double[][] row) {
    for (double[] state : row) {
      Arrays.fill(state, NEVER);
    }
  }

  private void cell(int i, int j) {
    int pair = i == 0 ? 0 : pair(i, j);
    now[PAIR][j] = i == 0 && j == 0 ? 0 : now[PAIR][j];
    int lone = PAIR;
    if (i > 0) {
      int from = before[PAIR][j] <= before[EXTRA][j] ? PAIR : EXTRA;
      double begun = before[from][j] + costs.lone(i - 1, true);
      double gone = before[LONE][j] + costs.lone(i - 1, false);
      lone = begun <= gone ? from : LONE;
      now[LONE][j] = Math.min(begun, gone);
    }
    int extra = PAIR;
    if (j > low[i]) {
      int from = now[PAIR][j - 1] <= now[LONE][j - 1] ? PAIR : LONE;
      double begun = now[from][j - 1] + costs.extra(i, j - 1, true);
      double gone = now[EXTRA][j - 1] + costs.extra(i, j - 1, false);
      extra = begun <= gone ? from : EXTRA;
      now[EXTRA][j] = Math.min(begun, gone);
    }
    back[i][j - low[i]] = pair << 2 * BITS | lone << BITS | extra;
  }

  /** The best pair that ends in a cell: how many it takes, and the state before it. */
  private int pair(int i, int j) {
    int most = Math.min(Math.min(costs.most(i - 1), SET.most()), j - low[i - 1]);
    int best = 0;
    for (int n = Math.max(1, j - high[i - 1]); n <= most; n++) {
      int k = j - n;
      int state = best(before, k);
      if (before[state][k] < NEVER) {
        double cost = before[state][k] + costs.pair(i - 1, k, j);
        if (cost < now[PAIR][j]) {
          now[PAIR][j] = cost;
          best = n << BITS | state;
        }
      }
    }
    return best;
  }

  private static int best(double[][] row, int j) {
    int state = row[PAIR][j] <= row[LONE][j] ? PAIR : LONE;
    return row[state][j] <= row[EXTRA][j] ? state : EXTRA;
  }

  private List<Taken> traced() {
    List<Taken> out = new ArrayList<>(Collections.nCopies(first, new Taken(0, 0)));
    int i = first;
    int j = second;
    int state = best(now, second);
    while (i > 0 || j > 0) {
      int cell = back[i][j - low[i]];
      if (state == EXTRA) {
        state = cell & STATE;
        j--;
      } else if (state == LONE) {
        state = cell >> BITS & STATE;
        i--;
        out.set(i, new Taken(j, j));
      } else {
        state = cell >> 2 * BITS & STATE;
        i--;
        int n = cell >> 3 * BITS;
        out.set(i, new Taken(j - n, j));
        j -= n;
      }
    }
    return List.copyOf(out);
  }
}
