package org.barmap.page.pixel;

import java.util.Arrays;

/**
 * Labels the connected pieces of ink of an image, corners counting as connected, and keeps the box
 * of each; what else is to be known of a piece its subclass sums up.
 *
 * <p>Works on runs of dark pixels, since ink is rare: a run joins the pieces it touches in the row
 * above (Rosenfeld and Pfaltz 1966, with union by the smaller label).
 */
public abstract class InkRuns {

  /** What is kept of a run: first column, column after, label. */
  private static final int RUN = 3;

  private int[] parent;
  private int[] left;
  private int[] right;
  private int[] top;
  private int[] bottom;
  private int count;

  /**
   * Labels that are no piece yet.
   *
   * @param first pieces there is room for at first
   */
  protected InkRuns(int first) {
    parent = new int[first];
    left = new int[first];
    right = new int[first];
    top = new int[first];
    bottom = new int[first];
  }

  /** Makes room for so many pieces. */
  protected abstract void grow(int pieces);

  /**
   * Sums up a run of a piece.
   *
   * @param label of the piece; new where nothing was added to it before
   * @param y row
   * @param from first column
   * @param to column after the last
   * @param joints runs of the row above that it touches
   * @param overlap columns in which there is ink above
   */
  protected abstract void add(int label, int y, int from, int to, int joints, int overlap);

  /** Adds what was summed up of a piece to another one, which it turned out to be part of. */
  protected abstract void merge(int to, int gone);

  /**
   * Labels an image; once only.
   *
   * @param gray row by row, unsigned
   * @param dark darker than this is ink
   */
  protected final void label(byte[] gray, int width, int dark) {
    int[] before = new int[RUN * (width / 2 + 2)];
    int[] here = new int[before.length];
    int beforeRuns = 0;
    int rows = gray.length / width;
    for (int y = 0; y < rows; y++) {
      int runs = 0;
      int touching = 0;
      int at = y * width;
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
        here[RUN * runs] = from;
        here[RUN * runs + 1] = x;
        here[RUN * runs + 2] = run(y, from, x, before, touching, beforeRuns);
        runs++;
      }
      int[] swap = before;
      before = here;
      here = swap;
      beforeRuns = runs;
    }
  }

  /** Adds a run to the piece it belongs to and returns that piece's label. */
  private int run(int y, int from, int to, int[] above, int touching, int aboveRuns) {
    int label = -1;
    int joints = 0;
    int overlap = 0;
    for (int k = RUN * touching; k < RUN * aboveRuns && above[k] <= to; k += RUN) {
      label = label < 0 ? root(above[k + 2]) : join(label, above[k + 2]);
      joints++;
      overlap += Math.max(0, Math.min(to, above[k + 1]) - Math.max(from, above[k]));
    }
    label = label < 0 ? fresh() : label;
    left[label] = Math.min(left[label], from);
    right[label] = Math.max(right[label], to);
    top[label] = Math.min(top[label], y);
    bottom[label] = Math.max(bottom[label], y + 1);
    add(label, y, from, to, joints, overlap);
    return label;
  }

  /** Returns the number of labels. */
  protected final int count() {
    return count;
  }

  /** Tells whether a label stands for a whole piece. */
  protected final boolean isPiece(int label) {
    return parent[label] == label;
  }

  /** Returns the first column of a piece. */
  protected final int left(int label) {
    return left[label];
  }

  /** Returns the column after the last of a piece. */
  protected final int right(int label) {
    return right[label];
  }

  /** Returns the first row of a piece. */
  protected final int top(int label) {
    return top[label];
  }

  /** Returns the row after the last of a piece. */
  protected final int bottom(int label) {
    return bottom[label];
  }

  private int fresh() {
    if (count == parent.length) {
      int more = 2 * count;
      parent = Arrays.copyOf(parent, more);
      left = Arrays.copyOf(left, more);
      right = Arrays.copyOf(right, more);
      top = Arrays.copyOf(top, more);
      bottom = Arrays.copyOf(bottom, more);
      grow(more);
    }
    parent[count] = count;
    left[count] = Integer.MAX_VALUE;
    top[count] = Integer.MAX_VALUE;
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
    merge(to, gone);
    return to;
  }
}
