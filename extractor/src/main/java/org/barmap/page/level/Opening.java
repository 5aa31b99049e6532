package org.barmap.page.level;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Point;
import org.barmap.page.pixel.FacingSettings;
import org.barmap.page.pixel.PageSettings;
import org.opencv.core.Mat;

/**
 * What gutters make of a picture: its pages, whole ones and those that the picture's edge cuts off.
 *
 * @param parts from left to right, one at least
 */
public record Opening(List<Part> parts) {

  private static final FacingSettings SET = PageSettings.STANDARD.facing();

  /** Takes a defensive copy. */
  public Opening {
    parts = List.copyOf(parts);
  }

  /** Returns how many pages are whole. */
  public long whole() {
    return parts.stream().filter(Part::whole).count();
  }

  /** Tells whether part of a page is in the picture that is not whole. */
  public boolean isCut() {
    return whole() < parts.size();
  }

  /** Tells whether a point of the picture lies on a page that is cut off. */
  public boolean isCutAt(Point point) {
    return parts.stream().anyMatch(p -> !p.whole && p.view.shows(point));
  }

  /**
   * A page in the picture, or what is in it of one.
   *
   * @param view of it alone
   * @param whole whether its staves are in the picture to their ends
   * @param share of a whole page's staves that is in the picture
   */
  public record Part(View view, boolean whole, double share) {}

  /**
   * Looks for the gutters in a view.
   *
   * @param space staff space in its pixels
   */
  static Opening of(View view, Mat gray, double space) {
    if (space <= 0) {
      return new Opening(List.of(new Part(view, true, 1)));
    }
    StaffRows staves = StaffRows.of(gray, space);
    for (int y = 0; y < staves.rows(); y++) {
      double[] paper = view.span(staves.height(y));
      staves.keep(y, paper[0], paper[1]);
    }
    List<Gutter> gutters = Gutter.find(gray, staves);
    if (gutters.isEmpty()) {
      return new Opening(List.of(new Part(view, true, 1)));
    }
    List<Extent> extents = new ArrayList<>();
    for (int i = 0; i <= gutters.size(); i++) {
      extents.add(Extent.of(view, staves, before(gutters, i), after(gutters, i)));
    }
    double widest = extents.stream().mapToDouble(Extent::width).max().orElse(0);
    List<Part> parts = new ArrayList<>();
    for (int i = 0; i <= gutters.size(); i++) {
      Extent e = extents.get(i);
      boolean whole =
          !e.out && e.width >= SET.surelyWhole() * widest
              || !e.cut && e.width >= SET.leastWhole() * widest
              || !e.near && e.width >= SET.leastApart() * widest;
      View own = view.between(before(gutters, i), after(gutters, i), SET.trim() * space);
      parts.add(new Part(own, whole, widest > 0 ? e.width / widest : 0));
    }
    return new Opening(parts).withOneWhole();
  }

  /** Where every page is cut off the longest is better than none. */
  private Opening withOneWhole() {
    if (whole() > 0) {
      return this;
    }
    double most = parts.stream().mapToDouble(Part::share).max().orElse(0);
    return new Opening(
        parts.stream().map(p -> new Part(p.view, p.share >= most, p.share)).toList());
  }

  private static Optional<Gutter> before(List<Gutter> gutters, int i) {
    return i == 0 ? Optional.empty() : Optional.of(gutters.get(i - 1));
  }

  private static Optional<Gutter> after(List<Gutter> gutters, int i) {
    return i == gutters.size() ? Optional.empty() : Optional.of(gutters.get(i));
  }

  /**
   * How far the staves between two gutters reach.
   *
   * @param width of most of them at least, cells
   * @param out whether most of them run on to the very edge of the picture
   * @param cut whether half of them end so near to it that they may run out of it
   * @param near whether half of them end near it at least
   */
  private record Extent(double width, boolean out, boolean cut, boolean near) {

    static Extent of(View view, StaffRows staves, Optional<Gutter> before, Optional<Gutter> after) {
      int[] first = new int[staves.rows()];
      int[] last = new int[staves.rows()];
      boolean[] seen = new boolean[staves.rows()];
      double[] room = new double[staves.rows()];
      for (int y = 0; y < staves.rows(); y++) {
        double h = staves.height(y);
        double[] paper = view.span(h);
        int from = (int) (before.map(g -> g.at(h)).orElse(0.0) / StaffRows.CELL);
        int to = (int) (after.map(g -> g.at(h)).orElse(view.width()) / StaffRows.CELL);
        first[y] = -1;
        for (int x = Math.max(0, from); x < Math.min(staves.cols(), to); x++) {
          if (staves.isStaff(x, y)) {
            first[y] = first[y] < 0 ? x : first[y];
            last[y] = x;
          }
        }
        seen[y] = first[y] >= 0;
        room[y] =
            Math.min(
                before.isEmpty() ? first[y] - paper[0] / StaffRows.CELL : Double.MAX_VALUE,
                after.isEmpty() ? paper[1] / StaffRows.CELL - last[y] - 1 : Double.MAX_VALUE);
      }
      return of(staves, seen, new int[][] {first, last}, room);
    }

    private static Extent of(StaffRows staves, boolean[] seen, int[][] ends, double[] room) {
      List<Integer> starts = staves.staves(seen);
      List<Integer> widths = new ArrayList<>();
      List<Double> rooms = new ArrayList<>();
      for (int i = 0; i < starts.size(); i++) {
        int end = i + 1 < starts.size() ? starts.get(i + 1) : seen.length;
        int from = Integer.MAX_VALUE;
        int to = 0;
        double least = Double.MAX_VALUE;
        for (int y = starts.get(i); y < end; y++) {
          if (seen[y]) {
            from = Math.min(from, ends[0][y]);
            to = Math.max(to, ends[1][y]);
            least = Math.min(least, room[y]);
          }
        }
        widths.add(to - from);
        rooms.add(least);
      }
      widths.sort(Integer::compare);
      double width = widths.isEmpty() ? 0 : widths.get((int) (SET.most() * widths.size()));
      rooms.sort(Double::compare);
      double half = rooms.isEmpty() ? 0 : rooms.get((rooms.size() - 1) / 2);
      double usual = rooms.isEmpty() ? 0 : rooms.get((int) (SET.most() * (rooms.size() - 1)));
      return new Extent(
          width,
          usual <= SET.runsOut(),
          half < SET.margin() * staves.space(),
          half < SET.farMargin() * staves.space());
    }
  }
}
