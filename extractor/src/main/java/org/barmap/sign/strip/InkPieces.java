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

  private int[] parent = new int[256];
  private int[] left = new int[256];
  private int[] right = new int[256];
  private int[] top = new int[256];
  private int[] bottom = new int[256];
  private int[] area = new int[256];
  private int count;

  private InkPieces() {}

  /** One connected piece: its box and how many of its pixels are dark. */
  public record Piece(int x, int y, int w, int h, int area) {}

  /**
   * Finds the pieces.
   *
   * @param gray row by row, unsigned
   * @param dark darker than this is ink
   */
  public static List<Piece> of(byte[] gray, int width, int dark) {
    return new InkPieces().find(gray, width, dark);
  }

  private List<Piece> find(byte[] gray, int width, int dark) {
    int rows = gray.length / width;
    // Runs of the row before and of this one: first column, column after, label.
    int[] before = new int[3 * (width / 2 + 1)];
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
        while (touching < beforeRuns && before[3 * touching + 1] < from) {
          touching++;
        }
        int label = -1;
        for (int k = touching; k < beforeRuns && before[3 * k] <= x; k++) {
          label = label < 0 ? root(before[3 * k + 2]) : join(label, before[3 * k + 2]);
        }
        label = label < 0 ? fresh() : label;
        add(label, from, x, y);
        here[3 * runs] = from;
        here[3 * runs + 1] = x;
        here[3 * runs + 2] = label;
        runs++;
      }
      int[] swap = before;
      before = here;
      here = swap;
      beforeRuns = runs;
    }
    List<Piece> pieces = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      if (parent[i] == i) {
        pieces.add(new Piece(left[i], top[i], right[i] - left[i], bottom[i] + 1 - top[i], area[i]));
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
