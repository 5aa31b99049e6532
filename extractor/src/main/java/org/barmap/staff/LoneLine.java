package org.barmap.staff;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import org.barmap.page.pixel.WorkStep;

/**
 * A single level line followed along the page, in working pixels.
 *
 * @param left end
 * @param right end
 * @param middle heights every {@link Staff#STEP} pixels from the left end on; not to be changed
 * @param covered share of its length in which it is seen, or hidden by ink
 * @param thick its usual ink above and below its middle; 0 where nobody looked
 */
record LoneLine(double left, double right, double[] middle, double covered, double thick) {

  private static final LoneSettings.Follow SET = LoneSettings.STANDARD.follow();

  /** Returns the height at {@code x}, straight beyond the ends. */
  double at(double x) {
    double i = (x - left) / Staff.STEP;
    int low = (int) Math.max(0, Math.min(middle.length - 2.0, Math.floor(i)));
    return middle[low] + (middle[low + 1] - middle[low]) * (i - low);
  }

  /** Returns the same, its ink looked at. */
  LoneLine measured(Pixels pixels) {
    return new LoneLine(left, right, middle, covered, LoneStroke.thickness(pixels, this));
  }

  /** Returns the length in pixels. */
  double length() {
    return right - left;
  }

  /** Follows all lines of a page from left to right. */
  static List<LoneLine> all(LineBlocks lines, Pixels pixels) {
    List<Way> going = new ArrayList<>();
    List<Way> ended = new ArrayList<>();
    for (int b = 0; b < lines.count(); b++) {
      Peaks peaks = Peaks.of(lines.block(b));
      List<Way> on = new ArrayList<>();
      for (Way way : going) {
        way.step(lines, b, peaks);
        (way.isOver() ? ended : on).add(way);
      }
      for (int i = 0; i < peaks.count; i++) {
        if (!peaks.taken[i]) {
          on.add(new Way(b, peaks.heights[i]));
        }
      }
      going = on;
    }
    ended.addAll(going);
    List<Way> far = ended.stream().filter(w -> w.seenTo - w.first >= SET.least()).toList();
    LoneLine[] drawn = new LoneLine[far.size()];
    WorkStep.STAVES.spread(drawn.length, i -> drawn[i] = far.get(i).line(lines.scale(), pixels));
    return joined(
        Arrays.stream(drawn).sorted(Comparator.comparingDouble(l -> -l.length())).toList());
  }

  /** The heights of a block that look like a line; each is part of one line only. */
  private static final class Peaks {
    private final double[] heights;
    private final boolean[] taken;
    private int count;

    private Peaks(int most) {
      heights = new double[most];
      taken = new boolean[most];
    }

    /** Of heights that are alike the middle. */
    static Peaks of(float[] v) {
      Peaks peaks = new Peaks(v.length / 2 + 1);
      for (int y = 1; y + 1 < v.length; y++) {
        if (v[y] >= SET.line() && v[y] > v[y - 1]) {
          int end = y;
          while (end + 1 < v.length && v[end + 1] == v[y]) {
            end++;
          }
          if (end + 1 == v.length || v[end + 1] < v[y]) {
            peaks.heights[peaks.count++] = (y + end) / 2.0;
          }
          y = end;
        }
      }
      return peaks;
    }

    /** Returns which one that is not taken lies nearest, -1 where all are; of two the upper one. */
    int nearest(double y) {
      int found = Arrays.binarySearch(heights, 0, count, y);
      int under = found < 0 ? -found - 1 : found;
      int over = found < 0 ? under - 1 : found;
      while (under < count && taken[under]) {
        under++;
      }
      while (over >= 0 && taken[over]) {
        over--;
      }
      if (under == count) {
        return over;
      }
      return over < 0 || heights[under] - y < y - heights[over] ? under : over;
    }
  }

  /** Puts parts of one line together, the longer one's heights where both have them. */
  private static List<LoneLine> joined(List<LoneLine> longestFirst) {
    List<LoneLine> whole = new ArrayList<>();
    for (LoneLine line : longestFirst) {
      int i = 0;
      while (i < whole.size() && !whole.get(i).goesOnIn(line)) {
        i++;
      }
      if (i < whole.size()) {
        whole.set(i, whole.get(i).with(line));
      } else {
        whole.add(line);
      }
    }
    return whole;
  }

  /**
   * Returns the line as long as another one where enough ink of it is left, beside that one's way.
   */
  LoneLine along(LoneLine longer, Pixels pixels, double share) {
    double from =
        longer.left < left && hasDashes(longer, pixels, longer.left, left, share)
            ? longer.left
            : left;
    double to =
        longer.right > right && hasDashes(longer, pixels, right, longer.right, share)
            ? longer.right
            : right;
    if (from == left && to == right) {
      return this;
    }
    double[] all = new double[points(from, to)];
    for (int i = 0; i < all.length; i++) {
      all[i] = beside(longer, from + i * Staff.STEP);
    }
    return new LoneLine(from, to, all, covered, thick);
  }

  private double beside(LoneLine other, double x) {
    double own = Math.max(left, Math.min(right, x));
    return at(own) + other.at(x) - other.at(own);
  }

  private boolean hasDashes(LoneLine other, Pixels pixels, double from, double to, double share) {
    int ink = LoneSettings.STANDARD.stroke().ink();
    int seen = 0;
    int all = 0;
    for (double x = from; x < to; x++, all++) {
      double y = beside(other, x);
      seen += pixels.darkest(x, y - SET.reach(), y + SET.reach()) < ink ? 1 : 0;
    }
    return seen >= share * all;
  }

  private boolean goesOnIn(LoneLine other) {
    double x = Math.max(left, Math.min(right, (other.left + other.right) / 2));
    double beside = Math.max(other.left, Math.min(other.right, x));
    return other.left < right + SET.gap()
        && other.right > left - SET.gap()
        && Math.abs(at(x) - other.at(beside)) < SET.apart();
  }

  private LoneLine with(LoneLine other) {
    double from = Math.min(left, other.left);
    double to = Math.max(right, other.right);
    double[] all = new double[points(from, to)];
    for (int i = 0; i < all.length; i++) {
      double x = from + i * Staff.STEP;
      all[i] = x >= left && x <= right ? at(x) : other.at(x);
    }
    return new LoneLine(from, to, all, Math.max(covered, other.covered), thick);
  }

  private static int points(double left, double right) {
    return Math.max(2, (int) Math.ceil((right - left) / Staff.STEP) + 1);
  }

  /** Goes outwards from a coarse end as far as there is ink at the line's height. */
  private double end(Pixels pixels, double from, int direction) {
    double good = from;
    int ink = LoneSettings.STANDARD.stroke().ink();
    for (double x = from; Math.abs(x - good) <= SET.reach(); x += direction) {
      double y = at(x);
      if (pixels.darkest(x, y - 1, y + 1) < ink) {
        good = x;
      }
    }
    return good;
  }

  /** The straight line through some places. */
  private static final class Through {
    private double n;
    private double x;
    private double y;
    private double xx;
    private double xy;

    void add(double px, double py) {
      n++;
      x += px;
      y += py;
      xx += px * px;
      xy += px * py;
    }

    private double slope() {
      double spread = n * xx - x * x;
      return spread <= 0 ? 0 : (n * xy - x * y) / spread;
    }

    double at(double px, double steepest) {
      return y / n + Math.max(-steepest, Math.min(steepest, slope())) * (px - x / n);
    }
  }

  /** A line while it is followed. */
  private static final class Way {
    private final int first;
    private double[] y = new double[SET.least()];
    private boolean[] seenAt = new boolean[SET.least()];
    private int blocks;
    private int seen;
    private int bare;
    private int allBare;
    private int hidden;
    private int seenTo;

    Way(int first, double y) {
      this.first = first;
      see(first, y);
    }

    private void see(int b, double at) {
      add(at, true);
      seen++;
      bare = 0;
      hidden = 0;
      seenTo = b;
    }

    private void add(double at, boolean isSeen) {
      if (blocks == y.length) {
        y = Arrays.copyOf(y, 2 * blocks);
        seenAt = Arrays.copyOf(seenAt, 2 * blocks);
      }
      y[blocks] = at;
      seenAt[blocks++] = isSeen;
    }

    /** Where the straight line through the last places seen goes on. */
    private double expected() {
      Through last = new Through();
      for (int i = blocks - 1; i >= 0 && last.n < SET.tail(); i--) {
        if (seenAt[i]) {
          last.add(i, y[i]);
        }
      }
      return last.n < SET.tail() / 2.0 ? y[blocks - 1] : last.at(blocks, SET.steepest());
    }

    /** Goes on by a block; what it takes of the peaks is gone. */
    void step(LineBlocks lines, int b, Peaks peaks) {
      double at = expected();
      double reach = SET.reach() + Math.min(SET.reach(), hidden * SET.wider());
      int best = peaks.nearest(at);
      if (best >= 0 && Math.abs(peaks.heights[best] - at) <= reach) {
        peaks.taken[best] = true;
        see(b, (at + peaks.heights[best]) / 2);
        return;
      }
      boolean isBare = lines.isBare(b, at);
      bare = isBare ? bare + 1 : 0;
      allBare += isBare ? 1 : 0;
      hidden++;
      add(at, false);
    }

    boolean isOver() {
      return bare > SET.patience() || blocks == SET.first() && seen < SET.seen() * blocks;
    }

    LoneLine line(double scale, Pixels pixels) {
      double block = LineBlocks.WIDTH / scale;
      double x0 = (first + 0.5) * block;
      double x1 = (seenTo + 0.5) * block;
      double shown = 1 - Math.max(0, allBare - bare) / (double) Math.max(1, seenTo - first);
      LoneLine coarse = new LoneLine(x0, x1, drawn(x0, x0, x1, scale), shown, 0);
      double left = coarse.end(pixels, x0, -1);
      double right = coarse.end(pixels, x1, 1);
      return new LoneLine(left, right, drawn(x0, left, right, scale), shown, 0);
    }

    private double[] drawn(double x0, double left, double right, double scale) {
      double block = LineBlocks.WIDTH / scale;
      double[] middle = new double[points(left, right)];
      for (int k = 0; k < middle.length; k++) {
        // Blocks count from pixel centres, the page from pixel edges.
        middle[k] = (local((left + k * Staff.STEP - x0) / block) + 0.5) / scale;
      }
      return middle;
    }

    /** The height at a block of the straight line through the places seen around it. */
    private double local(double i) {
      int last = seenTo - first;
      int from = (int) Math.max(0, Math.min(last - 2.0 * SET.bend(), i - SET.bend()));
      int to = Math.min(last, Math.max((int) i + SET.bend(), 2 * SET.bend()));
      Through around = new Through();
      for (int j = from; j <= to; j++) {
        if (seenAt[j]) {
          around.add(j, y[j]);
        }
      }
      return around.n < SET.fewest()
          ? y[(int) Math.max(0, Math.min(last, i))]
          : around.at(i, SET.steepest());
    }
  }
}
