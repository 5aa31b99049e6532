package org.barmap.staff;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.NavigableSet;
import java.util.TreeSet;

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
      NavigableSet<Double> peaks = peaks(lines.block(b));
      List<Way> on = new ArrayList<>();
      for (Way way : going) {
        way.step(lines, b, peaks);
        (way.isOver() ? ended : on).add(way);
      }
      for (double y : peaks) {
        on.add(new Way(b, y));
      }
      going = on;
    }
    ended.addAll(going);
    return joined(
        ended.stream()
            .filter(w -> w.seenTo - w.first >= SET.least())
            .map(w -> w.line(lines.scale(), pixels))
            .sorted(Comparator.comparingDouble(l -> -l.length()))
            .toList());
  }

  /** Returns the heights of a block that look like a line; the middle of those that are alike. */
  private static NavigableSet<Double> peaks(float[] v) {
    NavigableSet<Double> peaks = new TreeSet<>();
    for (int y = 1; y + 1 < v.length; y++) {
      if (v[y] >= SET.line() && v[y] > v[y - 1]) {
        int end = y;
        while (end + 1 < v.length && v[end + 1] == v[y]) {
          end++;
        }
        if (end + 1 == v.length || v[end + 1] < v[y]) {
          peaks.add((y + end) / 2.0);
        }
        y = end;
      }
    }
    return peaks;
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
    private final List<Double> y = new ArrayList<>();
    private final List<Boolean> seenAt = new ArrayList<>();
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
      y.add(at);
      seenAt.add(true);
      seen++;
      bare = 0;
      hidden = 0;
      seenTo = b;
    }

    /** Where the straight line through the last places seen goes on. */
    private double expected() {
      Through last = new Through();
      for (int i = y.size() - 1; i >= 0 && last.n < SET.tail(); i--) {
        if (seenAt.get(i)) {
          last.add(i, y.get(i));
        }
      }
      return last.n < SET.tail() / 2.0 ? y.get(y.size() - 1) : last.at(y.size(), SET.steepest());
    }

    /** Goes on by a block; what it takes of the peaks is gone. */
    void step(LineBlocks lines, int b, NavigableSet<Double> peaks) {
      double at = expected();
      double reach = SET.reach() + Math.min(SET.reach(), hidden * SET.wider());
      Double over = peaks.floor(at);
      Double under = peaks.ceiling(at);
      Double best = over == null || under != null && under - at < at - over ? under : over;
      if (best != null && Math.abs(best - at) <= reach) {
        peaks.remove(best);
        see(b, (at + best) / 2);
        return;
      }
      boolean isBare = lines.isBare(b, at);
      bare = isBare ? bare + 1 : 0;
      allBare += isBare ? 1 : 0;
      hidden++;
      y.add(at);
      seenAt.add(false);
    }

    boolean isOver() {
      return bare > SET.patience() || y.size() == SET.first() && seen < SET.seen() * y.size();
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
        if (seenAt.get(j)) {
          around.add(j, y.get(j));
        }
      }
      return around.n < SET.fewest()
          ? y.get((int) Math.max(0, Math.min(last, i)))
          : around.at(i, SET.steepest());
    }
  }
}
