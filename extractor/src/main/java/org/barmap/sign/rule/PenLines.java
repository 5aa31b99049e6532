package org.barmap.sign.rule;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import org.barmap.map.Barline;
import org.barmap.sign.kind.RawSign;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.set.PenSettings;
import org.barmap.sign.set.SignSettings;
import org.barmap.sign.strip.Ink;
import org.barmap.sign.strip.StripImage;

/**
 * Tells pages written by hand from print: a pen's barlines lean this way and that, and bend; an
 * engraver's are like their neighbours, also where the page is crooked, or bent by a book's gutter.
 */
public final class PenLines {

  private static final PenSettings SET = SignSettings.STANDARD.pen();

  private PenLines() {}

  /** A strip of a page, and what was found on it. */
  public record Own(StripImage strip, List<RawSign> signs) {

    /** Takes a defensive copy. */
    public Own {
      signs = List.copyOf(signs);
    }
  }

  /**
   * A barline.
   *
   * @param lean how much it leans, pixels a row
   * @param bend how far its ink is from straight, pixels
   * @param at where it stands on its strip, pixels
   */
  private record Shape(double lean, double bend, double at) {}

  /** The middle of a stroke in one row. */
  private record Spot(double u, int v) {}

  /** Tells whether the barlines of a page were drawn by a pen. */
  public static boolean onPage(List<Own> strips) {
    List<Shape> shapes = new ArrayList<>();
    for (Own own : strips) {
      own.signs.stream()
          .filter(PenLines::isSureLine)
          .map(s -> shape(own.strip, (int) Math.round(s.centre())))
          .forEach(shape -> shape.ifPresent(shapes::add));
    }
    return shapes.size() >= SET.lines() && unsteady(shapes) > SET.unsteady();
  }

  private static double unsteady(List<Shape> shapes) {
    double lean = median(shapes, s -> Math.abs(s.lean - around(s, shapes)));
    return lean + median(shapes, Shape::bend) / StripImage.SPACE;
  }

  /** How those lean that stand above, below and beside a barline. */
  private static double around(Shape one, List<Shape> all) {
    List<Shape> near =
        all.stream()
            .filter(s -> s != one)
            .sorted(Comparator.comparingDouble(s -> Math.abs(s.at - one.at)))
            .limit(SET.near())
            .toList();
    return median(near, Shape::lean);
  }

  private static boolean isSureLine(RawSign s) {
    return s.kind() == SignKind.BARLINE
        && s.probability() > SET.sure()
        && s.readings().get(0).text().equals(Barline.SINGLE.word());
  }

  /** Follows a stroke up and down from the middle of the staff. */
  private static Optional<Shape> shape(StripImage strip, int x) {
    for (int v = StripImage.MIDDLE + StripImage.SPACE / 2;
        v > StripImage.MIDDLE - StripImage.SPACE;
        v -= 2) {
      double u = middle(strip, x, v);
      if (!Double.isNaN(u)) {
        List<Spot> spots = new ArrayList<>();
        follow(strip, new Spot(u, v), -1, spots);
        follow(strip, new Spot(u, v), 1, spots);
        return spots.size() < SET.rows() ? Optional.empty() : Optional.of(straight(spots));
      }
    }
    return Optional.empty();
  }

  /** The rows of a stroke inside the staff, up to where it ends; staff lines tell nothing. */
  private static void follow(StripImage strip, Spot from, int step, List<Spot> spots) {
    int bare = 0;
    double u = from.u;
    int v = from.v;
    while (Math.abs(v - StripImage.MIDDLE) <= 2 * StripImage.SPACE && bare <= SET.bare()) {
      double next = betweenLines(v) ? middle(strip, (int) Math.round(u), v) : u;
      bare = Double.isNaN(next) ? bare + 1 : 0;
      if (bare == 0 && betweenLines(v)) {
        u = next;
        spots.add(new Spot(u, v));
      }
      v += step;
    }
  }

  private static boolean betweenLines(int v) {
    int off = Math.floorMod(v - StripImage.MIDDLE, StripImage.SPACE);
    return off > 1 && off < StripImage.SPACE - 1;
  }

  /** The straight line nearest to the spots (least squares), and what is left beside it. */
  private static Shape straight(List<Spot> spots) {
    double u = spots.stream().mapToDouble(Spot::u).average().orElse(0);
    double v = spots.stream().mapToDouble(Spot::v).average().orElse(0);
    double both = 0;
    double rows = 0;
    for (Spot s : spots) {
      both += (s.u - u) * (s.v - v);
      rows += (s.v - v) * (s.v - v);
    }
    double lean = rows > 0 ? both / rows : 0;
    double left = 0;
    for (Spot s : spots) {
      double off = s.u - u - lean * (s.v - v);
      left += off * off;
    }
    return new Shape(lean, Math.sqrt(left / spots.size()), u);
  }

  /** The middle of the ink nearest to a column in a row; not a number where there is no stroke. */
  private static double middle(StripImage strip, int u, int v) {
    for (int d = 0; d <= SET.aside(); d++) {
      for (int c : new int[] {u - d, u + d}) {
        if (Ink.at(strip, c, v)) {
          return middleOfRun(strip, c, v);
        }
      }
    }
    return Double.NaN;
  }

  private static double middleOfRun(StripImage strip, int u, int v) {
    int left = u;
    int right = u;
    while (right - left <= SET.widest() && Ink.at(strip, left - 1, v)) {
      left--;
    }
    while (right - left <= SET.widest() && Ink.at(strip, right + 1, v)) {
      right++;
    }
    if (right - left > SET.widest()) {
      return Double.NaN;
    }
    double weight = 0;
    double moment = 0;
    for (int c = Math.max(0, left - 1); c <= Math.min(strip.width() - 1, right + 1); c++) {
      double ink = 255 - (strip.gray()[v * strip.width() + c] & 0xff);
      weight += ink;
      moment += ink * c;
    }
    return moment / weight;
  }

  private static double median(List<Shape> shapes, ToDoubleFunction<Shape> of) {
    double[] sorted = shapes.stream().mapToDouble(of).toArray();
    Arrays.sort(sorted);
    return sorted[sorted.length / 2];
  }
}
