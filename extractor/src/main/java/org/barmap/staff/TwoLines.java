package org.barmap.staff;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;

/**
 * A staff of two lines, as parts for two untuned instruments have them: two level lines side by
 * side, crossed by barlines from one to the other or further, and no third line near them.
 *
 * @param upper line
 * @param lower line
 * @param between the line half way between them, which isn't there
 * @param strokes its barlines
 * @param half half their usual height on the page, pixels
 */
record TwoLines(
    LoneLine upper, LoneLine lower, LoneLine between, List<LoneStroke> strokes, double half) {

  private static final LoneSettings.Twin SET = LoneSettings.STANDARD.twin();
  private static final LoneSettings.Single STAFF = LoneSettings.STANDARD.staff();

  /** Places along them at which their distance is measured. */
  private static final int PLACES = 8;

  /**
   * Which of the five lines a staff has.
   *
   * @param upper from -2, the top line, to 2, the bottom line
   * @param lower the same where there is only one
   */
  record Own(int upper, int lower) {

    /** The middle line alone. */
    static final Own ONE = new Own(0, 0);

    boolean has(int line) {
      return line == upper || line == lower;
    }

    /** Half way between them. */
    double centre() {
      return (upper + lower) / 2.0;
    }

    /** How far from there a stroke is clear of them. */
    double clear() {
      return upper == lower
          ? Double.MAX_VALUE
          : (lower - upper) * LoneSettings.STANDARD.drawn().clear();
    }

    /** How far all moves upwards that stands over them; a line alone stands for three. */
    int up() {
      return upper == lower ? 1 : 2 + upper;
    }

    /** How far all moves downwards that stands under them. */
    int down() {
      return upper == lower ? 1 : 2 - lower;
    }

    /** Returns where on the page a place on the drawn strip lies, both measured across. */
    double onPage(double across) {
      if (across < -2) {
        return across + up();
      }
      return across > 2 ? across - down() : across;
    }
  }

  /** Finds them among lines that belong to no other staff. */
  static List<TwoLines> among(List<LoneLine> lines, Pixels pixels, LineBlocks blocks) {
    List<LoneLine> sorted =
        lines.stream().sorted(Comparator.comparingDouble(TwoLines::height)).toList();
    List<TwoLines> all = new ArrayList<>();
    for (int i = 0; i < sorted.size(); i++) {
      LoneLine upper = sorted.get(i);
      // Twice the furthest, for their middles may lie apart along a line that slopes; not further,
      // for a page may have thousands of lines.
      double end = height(upper) + 2 * SET.furthest();
      for (int j = i + 1; j < sorted.size() && height(sorted.get(j)) <= end; j++) {
        LoneLine lower = sorted.get(j);
        if (all.stream().noneMatch(t -> t.has(upper) || t.has(lower)) && pairs(upper, lower)) {
          TwoLines pair = of(upper, lower, pixels);
          if (pair.between.covered() >= STAFF.covered() && pair.isAlone(blocks)) {
            all.add(pair);
          }
        }
      }
    }
    List<TwoLines> sure = all.stream().filter(TwoLines::isBarred).toList();
    double half = median(sure, TwoLines::half);
    double apart = median(sure, TwoLines::apart);
    double slack = LoneSettings.STANDARD.stroke().alike();
    return all.stream()
        .filter(t -> Math.abs(t.apart() - apart) <= slack * apart + SET.slack())
        .filter(
            t ->
                sure.contains(t)
                    ? Math.abs(t.half - half) <= slack * half
                    : t.isBelow(sure)
                        && LoneStroke.groups(pixels, t.between).stream()
                                .filter(s -> LoneStaves.isClef(t.between, s))
                                .count()
                            > 1)
        .toList();
  }

  private static double median(List<TwoLines> pairs, ToDoubleFunction<TwoLines> of) {
    double[] values = pairs.stream().mapToDouble(of).sorted().toArray();
    return values.length == 0 ? 0 : values[values.length / 2];
  }

  private static TwoLines of(LoneLine upper, LoneLine lower, Pixels pixels) {
    LoneLine between = between(upper, lower);
    double apart = lower.at(middle(between)) - upper.at(middle(between));
    List<LoneStroke> strokes =
        LoneStroke.across(pixels, between, apart).stream()
            .filter(s -> 2 * s.half() >= SET.bar() * apart && 2 * s.half() <= SET.highest() * apart)
            .filter(s -> !LoneStaves.isClef(between, s))
            .toList();
    double[] halves = strokes.stream().mapToDouble(LoneStroke::half).sorted().toArray();
    double half = halves.length == 0 ? apart / 2 : halves[halves.length / 2];
    double slack = LoneSettings.STANDARD.stroke().alike() * half;
    List<LoneStroke> bars =
        strokes.stream().filter(s -> Math.abs(s.half() - half) <= slack).toList();
    return new TwoLines(upper, lower, between, bars, half);
  }

  /** Tells whether its barlines prove it. */
  private boolean isBarred() {
    int bars = strokes.size();
    return bars >= STAFF.bars()
        || bars > 1 && between.right() - strokes.get(bars - 1).to() < STAFF.end() * apart();
  }

  /** Tells whether it begins below or above one of some others. */
  private boolean isBelow(List<TwoLines> others) {
    double near = STAFF.margin() * apart();
    return others.stream().anyMatch(t -> Math.abs(t.between.left() - between.left()) <= near);
  }

  private static boolean pairs(LoneLine upper, LoneLine lower) {
    double left = Math.max(upper.left(), lower.left());
    double right = Math.min(upper.right(), lower.right());
    double[] apart =
        IntStream.rangeClosed(0, PLACES)
            .mapToDouble(i -> left + (right - left) * i / PLACES)
            .map(x -> lower.at(x) - upper.at(x))
            .sorted()
            .toArray();
    double usual = apart[PLACES / 2];
    double longer = Math.max(upper.length(), lower.length());
    return right - left >= SET.along() * longer
        && apart[0] >= SET.nearest()
        && apart[PLACES] <= SET.furthest()
        && apart[PLACES] - apart[0] <= SET.even() * usual + SET.slack();
  }

  private static LoneLine between(LoneLine upper, LoneLine lower) {
    return raised(upper, x -> (upper.at(x) + lower.at(x)) / 2, lower);
  }

  /** A line as long as both, at other heights. */
  private static LoneLine raised(LoneLine one, Function<Double, Double> at, LoneLine other) {
    double left = Math.min(one.left(), other.left());
    double right = Math.max(one.right(), other.right());
    int points = Math.max(2, (int) Math.ceil((right - left) / Staff.STEP) + 1);
    double[] heights =
        IntStream.range(0, points).mapToDouble(i -> at.apply(left + i * Staff.STEP)).toArray();
    return new LoneLine(left, right, heights, Math.min(one.covered(), other.covered()), 0);
  }

  private static double height(LoneLine line) {
    return line.at(middle(line));
  }

  private static double middle(LoneLine line) {
    return (line.left() + line.right()) / 2;
  }

  private boolean isAlone(LineBlocks blocks) {
    double apart = apart();
    double from = (0.5 + SET.outside()) * apart;
    double to = (0.5 + SET.clear()) * apart;
    double most = SET.parallel();
    double inside = SET.inside() * apart;
    return !blocks.isBeside(between, -to, -from, most)
        && !blocks.isBeside(between, from, to, most)
        && !blocks.isBeside(between, -inside, inside, most);
  }

  boolean has(LoneLine line) {
    return line == upper || line == lower;
  }

  /** Returns how far its lines lie apart, pixels. */
  double apart() {
    return lower.at(middle(between)) - upper.at(middle(between));
  }

  /**
   * Returns the staff space of a page with such staves in pixels, 0 where they have too few heads
   * and clefs: rows of a table have none.
   *
   * @param said what heads and clefs of each say about it
   */
  static double space(List<TwoLines> twins, Function<TwoLines, DoubleStream> said) {
    double[] all = twins.stream().flatMapToDouble(said::apply).sorted().toArray();
    if (all.length < STAFF.heads()) {
      return 0;
    }
    double apart = median(twins, TwoLines::apart);
    double space = all[all.length / 2];
    return SET.distances().stream()
        .map(d -> apart / d)
        .min(Comparator.comparingDouble(s -> Math.abs(Math.log(s / space))))
        .orElse(space);
  }

  /** Returns which of five lines they are: those in the middle, the upper ones of two choices. */
  Own lines(double space) {
    int distance = (int) Math.max(1, Math.min(Staff.ROOMS, Math.round(apart() / space)));
    int top = -(distance / 2);
    return new Own(top, top + distance);
  }

  /** Returns where the middle one of five lines would lie. */
  LoneLine staffLine(double space) {
    double centre = lines(space).centre() * space;
    return raised(between, x -> between.at(x) - centre, between);
  }
}
