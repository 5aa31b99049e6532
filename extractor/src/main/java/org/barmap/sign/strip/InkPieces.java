package org.barmap.sign.strip;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * The connected pieces of ink in an image, corners counting as connected.
 *
 * <p>Works on runs of dark pixels, since ink is rare: a run joins the pieces it touches in the row
 * above (Rosenfeld and Pfaltz 1966, with union by the smaller label).
 */
public final class InkPieces {

  /** Pieces there is room for at first. */
  private static final int FIRST = 256;

  /** What is kept of a run: first column, column after, label. */
  private static final int RUN = 3;

  private int[] parent = new int[FIRST];
  private int[] left = new int[FIRST];
  private int[] right = new int[FIRST];
  private int[] top = new int[FIRST];
  private int[] bottom = new int[FIRST];
  private int[] area = new int[FIRST];
  private int count;

  private InkPieces() {}

  /**
   * Finds the pieces.
   *
   * @param gray row by row, unsigned
   * @param dark darker than this is ink
   */
  public static List<InkPiece> of(byte[] gray, int width, int dark) {
    return new InkPieces().find(gray, width, dark);
  }

  private List<InkPiece> find(byte[] gray, int width, int dark) {
    int rows = gray.length / width;
    // Runs of the row before and of this one.
    int[] before = new int[RUN * (width / 2 + 1)];
    int[] here = new int[before.length];
    int beforeRuns = 0;
    for (int y = 0; y < rows; y++) {
      int runs = 0;
      int at = y * width;
      int touching = 0;
      for (int x = 0; x < width; x++) {
        if ((gray[at + x] & 0xff) >= dark) {
          continue;
        }
        int from = x;
        while (x < width && (gray[at + x] & 0xff) < dark) {
          x++;
        }
        while (touching < beforeRuns && before[RUN * touching + 1] < from) {
          touching++;
        }
        int label = -1;
        for (int k = touching; k < beforeRuns && before[RUN * k] <= x; k++) {
          label = label < 0 ? root(before[RUN * k + 2]) : join(label, before[RUN * k + 2]);
        }
        label = label < 0 ? fresh() : label;
        add(label, from, x, y);
        here[RUN * runs] = from;
        here[RUN * runs + 1] = x;
        here[RUN * runs + 2] = label;
        runs++;
      }
      int[] swap = before;
      before = here;
      here = swap;
      beforeRuns = runs;
    }
    List<InkPiece> pieces = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      if (parent[i] == i) {
        pieces.add(
            new InkPiece(left[i], top[i], right[i] - left[i], bottom[i] + 1 - top[i], area[i]));
      }
    }
    return pieces;
  }

  private int fresh() {
    if (count == parent.length) {
      int more = 2 * count;
      parent = Arrays.copyOf(parent, more);
      left = Arrays.copyOf(left, more);
      right = Arrays.copyOf(right, more);
      top = Arrays.copyOf(top, more);
      bottom = Arrays.copyOf(bottom, more);
      area = Arrays.copyOf(area, more);
    }
    parent[count] = count;
    left[count] = Integer.MAX_VALUE;
    right[count] = 0;
    top[count] = Integer.MAX_VALUE;
    bottom[count] = 0;
    area[count] = 0;
    return count++;
  }

  private void add(int label, int from, int to, int y) {
    left[label] = Math.min(left[label], from);
    right[label] = Math.max(right[label], to);
    top[label] = Math.min(top[label], y);
    bottom[label] = Math.max(bottom[label], y);
    area[label] += to - from;
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
    area[to] += area[gone];
    return to;
  }
}
