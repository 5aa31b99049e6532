package org.barmap.staff;

import java.util.ArrayList;
import java.util.List;

/**
 * Follows the middles of staves along the page.
 *
 * <p>Evidence is summed along smooth ways from both sides, fading with distance, so that a staff
 * stands out even where notes hide its lines. The strongest place starts the first track, which is
 * followed left and right along the best way until the evidence stays away; what it covers is
 * taken, and the next strongest place starts the next.
 */
final class Tracks {

  /** The middle of a staff from block {@code first} on, one height per block. */
  record Track(int first, double[] y) {
    int last() {
      return first + y.length - 1;
    }
  }

  private static final float FADE = 0.96f;
  private static final int STEEPEST = 3;
  private static final float BEND = 0.02f;
  private static final float START = 0.30f;
  private static final float ALIVE = 0.22f;

  /** Evidence that takes up a track again after a long gap. */
  private static final float BACK = 0.5f;

  private final Comb comb;
  private final double space;
  private final int h;
  private final int n;
  private final byte[][] toLeft;
  private final byte[][] toRight;
  private final List<double[]> taken = new ArrayList<>();

  private Tracks(Comb comb, double space) {
    this.comb = comb;
    this.space = space;
    this.n = comb.count();
    this.h = comb.block(0).length;
    this.toLeft = new byte[n][h];
    this.toRight = new byte[n][h];
  }

  static List<Track> find(Comb comb, double space) {
    return new Tracks(comb, space).search();
  }

  private record Seed(int b, int y, float value) {}

  private List<Track> search() {
    float[][] left = sum(true);
    float[][] right = sum(false);
    List<Seed> seeds = new ArrayList<>();
    float full = 2 / (1 - FADE) - 1;
    int reach = (int) Math.round(space);
    for (int b = 2; b < n; b += 4) {
      float[] total = new float[h];
      float[] own = comb.block(b);
      for (int y = 0; y < h; y++) {
        total[y] = (left[b][y] + right[b][y] - own[y]) / full;
      }
      for (int y = 0; y < h; y++) {
        if (total[y] >= START * 0.6f && isPeak(total, y, reach)) {
          seeds.add(new Seed(b, y, total[y]));
        }
      }
    }
    seeds.sort((p, q) -> Float.compare(q.value, p.value));
    List<Track> tracks = new ArrayList<>();
    for (Seed seed : seeds) {
      if (!isTaken(seed.b, seed.y)) {
        Track track = follow(seed);
        take(track);
        tracks.add(track);
      }
    }
    return tracks;
  }

  private static boolean isPeak(float[] v, int y, int reach) {
    for (int i = Math.max(0, y - reach); i <= Math.min(v.length - 1, y + reach); i++) {
      if (v[i] > v[y] || v[i] == v[y] && i < y) {
        return false;
      }
    }
    return true;
  }

  /** Sums from one side, and remembers for each place the way it came. */
  private float[][] sum(boolean fromLeft) {
    float[][] s = new float[n][h];
    byte[][] way = fromLeft ? toLeft : toRight;
    float[] penalty = new float[2 * STEEPEST + 1];
    for (int d = -STEEPEST; d <= STEEPEST; d++) {
      penalty[d + STEEPEST] = BEND * d * d;
    }
    float[] best = new float[h];
    for (int i = 0; i < n; i++) {
      int b = fromLeft ? i : n - 1 - i;
      float[] own = comb.block(b);
      if (i == 0) {
        System.arraycopy(own, 0, s[b], 0, h);
        continue;
      }
      float[] before = s[fromLeft ? b - 1 : b + 1];
      byte[] w = way[b];
      System.arraycopy(before, 0, best, 0, h);
      for (int d = -STEEPEST; d <= STEEPEST; d++) {
        if (d == 0) {
          continue;
        }
        float p = penalty[d + STEEPEST];
        int from = Math.max(0, -d);
        int to = Math.min(h, h - d);
        byte step = (byte) d;
        for (int y = from; y < to; y++) {
          float v = before[y + d] - p;
          if (v > best[y]) {
            best[y] = v;
            w[y] = step;
          }
        }
      }
      float[] out = s[b];
      for (int y = 0; y < h; y++) {
        out[y] = own[y] + FADE * best[y];
      }
    }
    return s;
  }

  private Track follow(Seed seed) {
    double[] y = new double[n];
    int first = walk(seed, -1, y);
    int last = walk(seed, 1, y);
    y[seed.b] = seed.y;
    return new Track(first, java.util.Arrays.copyOfRange(y, first, last + 1));
  }

  /** Goes from a seed to one side; returns the last block with evidence. */
  private int walk(Seed seed, int direction, double[] out) {
    int patience = (int) Math.round(12 * space / LineBlocks.WIDTH);
    float alive = 0.5f;
    int good = seed.b;
    int at = seed.y;
    for (int b = seed.b; b + direction >= 0 && b + direction < n; ) {
      at += (direction > 0 ? toRight : toLeft)[b][at];
      b += direction;
      if (at < 0 || at >= h || isTaken(b, at)) {
        break;
      }
      out[b] = at;
      alive = 0.8f * alive + 0.2f * comb.block(b)[at];
      boolean away = Math.abs(b - good) > patience / 4;
      if (alive > (away ? BACK : ALIVE)) {
        good = b;
      } else if (Math.abs(b - good) > patience) {
        break;
      }
    }
    return good;
  }

  private void take(Track track) {
    double[] y = new double[n];
    java.util.Arrays.fill(y, Double.NaN);
    System.arraycopy(track.y, 0, y, track.first, track.y.length);
    taken.add(y);
  }

  private boolean isTaken(int b, int y) {
    for (double[] t : taken) {
      if (Math.abs(t[b] - y) < 4.2 * space) {
        return true;
      }
    }
    return false;
  }
}
