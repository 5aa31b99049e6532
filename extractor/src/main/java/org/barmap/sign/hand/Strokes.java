package org.barmap.sign.hand;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.barmap.sign.set.HandSettings;
import org.barmap.sign.set.SignSettings;

/**
 * The connected pieces of ink of a page, corners counting as connected, with how gray and how wide
 * they are; by runs, as {@code strip.InkPieces}, since ink is rare.
 */
final class Strokes {

  private static final HandSettings SET = SignSettings.STANDARD.hand();

  /** Pieces there is room for at first. */
  private static final int FIRST = 1024;

  /** What is kept of a run: first column, column after, label. */
  private static final int RUN = 3;

  /** What is summed up of a piece. */
  private enum Sum {
    AREA,
    RUNS,
    JOINTS,
    OVERLAP,
    TOUCHING,
    GRAY,
    CORE,
    SQUARE
  }

  private static final int SUMS = Sum.values().length;

  private final StaffZones zones;
  private final int width;
  private int[] parent = new int[FIRST];
  private int[] begin = new int[FIRST];
  private int[] left = new int[FIRST];
  private int[] right = new int[FIRST];
  private int[] top = new int[FIRST];
  private int[] bottom = new int[FIRST];
  private int[] darkest = new int[FIRST];
  private long[] sums = new long[FIRST * SUMS];
  private int count;

  private Strokes(StaffZones zones, int width) {
    this.zones = zones;
    this.width = width;
  }

  /**
   * Finds the pieces.
   *
   * @param gray row by row, the staves cleared
   * @param space staff space, pixels
   */
  static List<Stroke> of(byte[] gray, int width, StaffZones zones, double space) {
    Strokes strokes = new Strokes(zones, width);
    strokes.find(gray);
    return strokes.pieces(SET.smallest() * space, SET.largest() * space);
  }

  private void find(byte[] gray) {
    int[] before = new int[RUN * (width / 2 + 2)];
    int[] here = new int[before.length];
    int beforeRuns = 0;
    int dark = SET.ink();
    int rows = gray.length / width;
    for (int y = 0; y < rows; y++) {
      int runs = 0;
      int touching = 0;
      int end = (y + 1) * width;
      for (int i = y * width; i < end; i++) {
        if ((gray[i] & 0xff) >= dark) {
          continue;
        }
        int from = i;
        int sum = 0;
        int core = dark;
        for (int v; i < end && (v = gray[i] & 0xff) < dark; i++) {
          sum += v;
          core = Math.min(core, v);
        }
        int x0 = from - y * width;
        int x1 = i - y * width;
        while (touching < beforeRuns && before[RUN * touching + 1] < x0) {
          touching++;
        }
        int label = -1;
        int joints = 0;
        int overlap = 0;
        for (int k = touching; k < beforeRuns && before[RUN * k] <= x1; k++) {
          label = label < 0 ? root(before[RUN * k + 2]) : join(label, before[RUN * k + 2]);
          joints++;
          overlap += Math.max(0, Math.min(x1, before[RUN * k + 1]) - Math.max(x0, before[RUN * k]));
        }
        label = label < 0 ? fresh(x0) : label;
        add(label, y, x0, x1, core, new int[] {joints, overlap, sum});
        here[RUN * runs] = x0;
        here[RUN * runs + 1] = x1;
        here[RUN * runs + 2] = label;
        runs++;
      }
      int[] swap = before;
      before = here;
      here = swap;
      beforeRuns = runs;
    }
  }

  private void add(int label, int y, int from, int to, int core, int[] more) {
    left[label] = Math.min(left[label], from);
    right[label] = Math.max(right[label], to);
    top[label] = Math.min(top[label], y);
    bottom[label] = Math.max(bottom[label], y + 1);
    darkest[label] = Math.min(darkest[label], core);
    int at = label * SUMS;
    sums[at + Sum.AREA.ordinal()] += to - from;
    sums[at + Sum.RUNS.ordinal()]++;
    sums[at + Sum.JOINTS.ordinal()] += more[0];
    sums[at + Sum.OVERLAP.ordinal()] += more[1];
    sums[at + Sum.TOUCHING.ordinal()] += zones.touching(y, from, to);
    sums[at + Sum.GRAY.ordinal()] += more[2];
    sums[at + Sum.CORE.ordinal()] += core;
    sums[at + Sum.SQUARE.ordinal()] += (long) core * core;
  }

  private List<Stroke> pieces(double smallest, double largest) {
    List<Stroke> pieces = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      int extent = Math.max(right[i] - left[i], bottom[i] - top[i]);
      if (parent[i] == i
          && extent >= smallest
          && extent <= largest
          && sum(i, Sum.TOUCHING) <= SET.edge() * (right[i] - left[i])) {
        pieces.add(piece(i));
      }
    }
    return pieces;
  }

  private Stroke piece(int i) {
    long runs = sum(i, Sum.RUNS);
    double core = (double) sum(i, Sum.CORE) / runs;
    double square = (double) sum(i, Sum.SQUARE) / runs;
    return new Stroke(
        begin[i],
        left[i],
        top[i],
        right[i],
        bottom[i],
        (int) sum(i, Sum.AREA),
        (int) runs,
        (int) (1 - runs + sum(i, Sum.JOINTS)),
        (int) sum(i, Sum.OVERLAP),
        (int) sum(i, Sum.TOUCHING),
        (double) sum(i, Sum.GRAY) / sum(i, Sum.AREA),
        core,
        Math.sqrt(Math.max(0, square - core * core)),
        darkest[i]);
  }

  private long sum(int label, Sum what) {
    return sums[label * SUMS + what.ordinal()];
  }

  private int fresh(int column) {
    if (count == parent.length) {
      int more = 2 * count;
      parent = Arrays.copyOf(parent, more);
      begin = Arrays.copyOf(begin, more);
      left = Arrays.copyOf(left, more);
      right = Arrays.copyOf(right, more);
      top = Arrays.copyOf(top, more);
      bottom = Arrays.copyOf(bottom, more);
      darkest = Arrays.copyOf(darkest, more);
      sums = Arrays.copyOf(sums, more * SUMS);
    }
    parent[count] = count;
    begin[count] = column;
    left[count] = Integer.MAX_VALUE;
    right[count] = 0;
    top[count] = Integer.MAX_VALUE;
    bottom[count] = 0;
    darkest[count] = Integer.MAX_VALUE;
    return count++;
  }

  private int root(int label) {
    int l = label;
    while (parent[l] != l) {
      parent[l] = parent[parent[l]];
      l = parent[l];
    }
    return l;
  }

  private int join(int a, int b) {
    int p = root(a);
    int q = root(b);
    if (p == q) {
      return p;
    }
    int to = Math.min(p, q);
    int gone = Math.max(p, q);
    parent[gone] = to;
    left[to] = Math.min(left[to], left[gone]);
    right[to] = Math.max(right[to], right[gone]);
    top[to] = Math.min(top[to], top[gone]);
    bottom[to] = Math.max(bottom[to], bottom[gone]);
    darkest[to] = Math.min(darkest[to], darkest[gone]);
    for (int k = 0; k < SUMS; k++) {
      sums[to * SUMS + k] += sums[gone * SUMS + k];
    }
    return to;
  }
}
