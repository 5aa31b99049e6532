package org.barmap.reckon;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;

/**
 * Aligns two sequences at least total cost, by dynamic programming; one item of the first may take
 * any number of consecutive items of the second.
 */
final class Aligner {

  /**
   * Cost of item {@code i} of the first taking items {@code from} to {@code to - 1} of the second.
   */
  @FunctionalInterface
  interface Cost {
    double of(int i, int from, int to);
  }

  /** One aligned item: the items {@code from} to {@code to - 1} of the second belong to it. */
  record Taken(int from, int to) {
    int size() {
      return to - from;
    }
  }

  private Aligner() {}

  /**
   * Aligns.
   *
   * @param first length of the first sequence
   * @param second length of the second
   * @param most how many items of the second item {@code i} of the first may take at most
   * @param skip cost of an item of the second that belongs to none of the first
   * @return what each item of the first takes
   */
  static List<Taken> align(
      int first, int second, java.util.function.IntUnaryOperator most, double skip, Cost cost) {
    double[][] best = new double[first + 1][second + 1];
    int[][] from = new int[first + 1][second + 1];
    for (int j = 1; j <= second; j++) {
      best[0][j] = best[0][j - 1] + skip;
    }
    for (int i = 1; i <= first; i++) {
      int limit = most.applyAsInt(i - 1);
      for (int j = 0; j <= second; j++) {
        best[i][j] = Double.POSITIVE_INFINITY;
        for (int k = Math.max(0, j - limit); k <= j; k++) {
          double c = best[i - 1][k] + cost.of(i - 1, k, j);
          if (c < best[i][j]) {
            best[i][j] = c;
            from[i][j] = k;
          }
        }
      }
      for (int j = 1; j <= second; j++) {
        if (best[i][j - 1] + skip < best[i][j]) {
          best[i][j] = best[i][j - 1] + skip;
          from[i][j] = -1;
        }
      }
    }
    List<Taken> out = new ArrayList<>(Collections.nCopies(first, new Taken(0, 0)));
    int j = second;
    for (int i = first; i > 0; i--) {
      while (from[i][j] < 0) {
        j--;
      }
      out.set(i - 1, new Taken(from[i][j], j));
      j = from[i][j];
    }
    return List.copyOf(out);
  }
}
