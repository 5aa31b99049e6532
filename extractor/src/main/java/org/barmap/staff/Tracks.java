package org.barmap.staff;

import java.util.ArrayList;
import java.util.List;
import org.barmap.page.pixel.Shift;
import org.barmap.page.pixel.WorkStep;

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

  private static final StaffSettings.Following SET = StaffSettings.STANDARD.tracks();

  private final Comb comb;
  private final double space;
  private final int h;
  private final int n;
  private final float[][] left;
  private final float[][] right;
  private final List<double[]> taken = new ArrayList<>();

  private Tracks(Comb comb, double space) {
    this.comb = comb;
    this.space = space;
    this.n = comb.count();
    this.h = comb.block(0).length;
    this.left = new float[n][];
    this.right = new float[n][];
    WorkStep.STAVES.spread(2, side -> sum(side == 0));
  }

  static List<Track> find(Comb comb, double space) {
    return new Tracks(comb, space).search();
  }

  private record Seed(int b, int y, float value) {}

  private List<Track> search() {
    List<Seed> seeds = new ArrayList<>();
    float full = 2 / (1 - SET.fade()) - 1;
    int reach = (int) Math.round(space);
    for (int b = 2; b < n; b += SET.every()) {
      float[] total = new float[h];
      float[] own = comb.block(b);
      for (int y = 0; y < h; y++) {
        total[y] = (left[b][y] + right[b][y] - own[y]) / full;
      }
      for (int y = 0; y < h; y++) {
        if (total[y] >= SET.start() * SET.seed() && isPeak(total, y, reach)) {
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

  /** Sums from one side, the best way to each place. */
  private void sum(boolean fromLeft) {
    float[][] s = fromLeft ? left : right;
    float[] best = new float[h];
    float[] moved = new float[h];
    for (int i = 0; i < n; i++) {
      int b = fromLeft ? i : n - 1 - i;
      float[] own = comb.block(b);
      if (i == 0) {
        s[b] = own.clone();
        continue;
      }
      float[] before = s[fromLeft ? b - 1 : b + 1];
      System.arraycopy(before, 0, best, 0, h);
      for (int d = -SET.steepest(); d <= SET.steepest(); d++) {
        Shift.of(before, d, 0, moved);
        float penalty = SET.bend() * d * d;
        for (int y = 0; y < h; y++) {
          best[y] = Math.max(best[y], moved[y] - penalty);
        }
      }
      float[] out = new float[h];
      for (int y = 0; y < h; y++) {
        out[y] = own[y] + SET.fade() * best[y];
      }
      s[b] = out;
    }
  }

  /** Returns how the best way to a place came from the block before: how many pixels lower. */
  private int step(float[] before, int y) {
    int step = 0;
    float best = before[y];
    for (int d = -SET.steepest(); d <= SET.steepest(); d++) {
      if (y + d >= 0 && y + d < h && before[y + d] - SET.bend() * d * d > best) {
        best = before[y + d] - SET.bend() * d * d;
        step = d;
      }
    }
    return step;
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
    int patience = (int) Math.round(SET.patience() * space / LineBlocks.WIDTH);
    float alive = SET.first();
    int good = seed.b;
    int at = seed.y;
    for (int b = seed.b; b + direction >= 0 && b + direction < n; ) {
      b += direction;
      at += step((direction > 0 ? right : left)[b], at);
      if (at < 0 || at >= h || isTaken(b, at)) {
        break;
      }
      out[b] = at;
      alive = SET.keep() * alive + SET.fresh() * comb.block(b)[at];
      boolean away = Math.abs(b - good) > patience / SET.longGap();
      if (alive > (away ? SET.back() : SET.alive())) {
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
      if (Math.abs(t[b] - y) < SET.apart() * space) {
        return true;
      }
    }
    return false;
  }
}
