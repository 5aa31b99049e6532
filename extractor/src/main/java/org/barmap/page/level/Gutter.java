package org.barmap.page.level;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import org.barmap.page.pixel.FacingSettings;
import org.barmap.page.pixel.PageSettings;
import org.opencv.core.Mat;

/**
 * A line between two pages in an upright picture, straight as folds of paper are.
 *
 * <p>No staff line runs across a gutter: there is a band from the top to the bottom without them,
 * which leans as the camera did, and there are staves on both its sides. In it the fold is the
 * darkest line; where none is seen its middle is taken.
 *
 * @param x at half the height, pixels of the picture
 * @param slope right per down, tangent
 * @param middle half the height, pixels
 */
record Gutter(double x, double slope, double middle) {

  private static final FacingSettings SET = PageSettings.STANDARD.facing();

  /** Returns where the line is at a height. */
  double at(double y) {
    return x + slope * (y - middle);
  }

  /** Returns the gutters of a picture from left to right. */
  static List<Gutter> find(Mat gray, StaffRows staves) {
    List<Band> bands = new ArrayList<>();
    if (staves.rows() == 0 || staves.space() <= 0) {
      return List.of();
    }
    int steps = (int) Math.round(SET.maxSlope() / SET.slopeStep());
    for (int i = -steps; i <= steps; i++) {
      addBands(staves, i * SET.slopeStep(), bands);
    }
    // The widest one, but a wide one that leans much more is only the white between short lines.
    bands.sort(
        Comparator.comparingDouble(
            b -> SET.leaning() * Math.abs(b.slope()) * staves.rows() - b.width()));
    List<Band> chosen = new ArrayList<>();
    for (Band band : bands) {
      if (chosen.stream().noneMatch(b -> b.isNear(band, SET.page() * staves.cols()))
          && band.parts(staves)) {
        chosen.add(band);
      }
    }
    return chosen.stream()
        .sorted(Comparator.comparingInt(Band::from))
        .map(b -> b.fold(gray, staves))
        .toList();
  }

  private static void addBands(StaffRows staves, double slope, List<Band> into) {
    int[] count = staves.counts(slope);
    int[] sorted = count.clone();
    Arrays.sort(sorted);
    double few = SET.empty() * sorted[(int) (count.length * SET.usual())];
    double least = SET.leastSpaces() * staves.space();
    int from = 0;
    for (int x = 0; x <= count.length; x++) {
      if (x == count.length || count[x] > few) {
        if (from > 0 && x < count.length && x - from >= least) {
          into.add(new Band(from, x, slope));
        }
        from = x + 1;
      }
    }
  }

  /**
   * A leaning band with next to no staff in it.
   *
   * @param from its first column at half the height, cells
   * @param to behind its last
   * @param slope right per down
   */
  private record Band(int from, int to, double slope) {

    int width() {
      return to - from;
    }

    boolean isNear(Band other, double by) {
      return from - by < other.to && other.from - by < to;
    }

    /** Tells whether staves stand on both sides, and hardly one goes on across. */
    boolean parts(StaffRows staves) {
      boolean[] left = new boolean[staves.rows()];
      boolean[] right = new boolean[staves.rows()];
      boolean[] across = new boolean[staves.rows()];
      int beside = (int) Math.ceil(SET.beside() * staves.space());
      for (int y = 0; y < staves.rows(); y++) {
        int moved = staves.moved(slope, y);
        left[y] = isSeen(staves, from + moved - beside, from + moved, y);
        right[y] = isSeen(staves, to + moved, to + moved + beside, y);
        across[y] = left[y] && right[y] && goesOn(staves, moved, y);
      }
      int onLeft = staves.staves(left).size();
      int onRight = staves.staves(right).size();
      int crossing = staves.staves(across).size();
      return Math.min(onLeft, onRight) - crossing >= SET.fewest()
          && Math.max(onLeft, onRight) >= SET.many()
          && crossing <= SET.crossing() * Math.min(onLeft, onRight);
    }

    private static boolean isSeen(StaffRows staves, int from, int to, int y) {
      int run = 0;
      for (int x = from; x < to; x++) {
        run = staves.isStaff(x, y) ? run + 1 : 0;
        if (run >= SET.run()) {
          return true;
        }
      }
      return false;
    }

    /** Notes hide some of a staff's lines, a gutter has none. */
    private boolean goesOn(StaffRows staves, int moved, int y) {
      int sum = 0;
      for (int x = from; x < to; x++) {
        int best = 0;
        for (int d = -1; d <= 1; d++) {
          best = Math.max(best, staves.lines(x + moved, y + d));
        }
        sum += best;
      }
      return sum >= SET.goesOn() * width();
    }

    /** Returns the darkest line down the band, or its middle. */
    Gutter fold(Mat gray, StaffRows staves) {
      double middle = staves.height(0) + (staves.rows() - 1) * StaffRows.CELL / 2.0;
      Folds folds = new Folds(gray, staves.space() * StaffRows.CELL, middle);
      return folds
          .darkest(
              from * StaffRows.CELL,
              to * StaffRows.CELL,
              slope,
              staves.rows() * StaffRows.CELL / 2.0)
          .orElse(new Gutter((from + to) * StaffRows.CELL / 2.0, slope, middle));
    }
  }
}
