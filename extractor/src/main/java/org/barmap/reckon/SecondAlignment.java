package org.barmap.reckon;

import java.util.List;
import java.util.Optional;
import org.barmap.map.Bar;
import org.barmap.map.Barline;
import org.barmap.map.Content;
import org.barmap.map.Evidence;
import org.barmap.map.Evidence.Alternative;
import org.barmap.map.RehearsalMark;
import org.barmap.map.SecondReading.Measure;

/**
 * Which bars of a second reading belong to which entry of the map.
 *
 * <p>What both say of a bar holds them together: rest or music, marks, meters, barlines, endings. A
 * number that the source merely counted on to says nothing, since one bar more makes all after it
 * wrong: then they would pull the difference away from where it is.
 */
final class SecondAlignment {

  /** Cost of a bar of music without a partner, on either side. */
  private static final double NO_PARTNER = 3;

  /** Cost of each further bar of music that the page lacks in the same place. */
  private static final double ONE_MORE = 0.75;

  /** How many bars of the source one bar of music may be. */
  private static final int MOST = 9;

  /** How much less a missing bar costs beside a rest: bars are miscounted there. */
  private static final double BESIDE_REST = 0.2;

  /** Cost of a rest whose numeral was misread: rests are misread more often than barlines. */
  private static final double MISREAD_COUNT = 2.5;

  /** Cost of a rest against a bar of music; cue notes and doublings make them differ at times. */
  private static final double WRONG_CONTENT = 0.7;

  private static final double WRONG_MARK = 4;
  private static final double WRONG_METER = 2;
  private static final double SAME_MARK = -2;
  private static final double SAME_REST = -1;
  private static final double SAME_NUMBER = -1.5;

  /** Repeats, double barlines and endings; a part and its score differ in them at times. */
  private static final double SAME_LINE = -0.7;

  private static final double WRONG_LINE = 0.5;

  private final List<Bar> bars;
  private final List<Measure> measures;
  private final boolean marked;

  private SecondAlignment(List<Bar> bars, List<Measure> measures) {
    this.bars = bars;
    this.measures = measures;
    this.marked = measures.stream().anyMatch(m -> m.rehearsal().isPresent());
  }

  /** Aligns; what each entry takes. */
  static List<Aligner.Taken> of(List<Bar> bars, List<Measure> measures) {
    SecondAlignment a = new SecondAlignment(bars, measures);
    return Aligner.align(
        bars.size(),
        measures.size(),
        i -> bars.get(i).isRest() ? 3 * bars.get(i).count() + 20 : MOST,
        NO_PARTNER,
        a::cost);
  }

  /**
   * How many bars that no entry took stand beside each: after it, or before it where only it is
   * like them (a rest beside rests).
   */
  static int[] left(List<Bar> bars, List<Measure> measures, List<Aligner.Taken> taken) {
    int[] left = new int[bars.size()];
    int at = 0;
    for (int i = 0; i <= bars.size() && !bars.isEmpty(); i++) {
      int to = i < bars.size() ? taken.get(i).from() : measures.size();
      boolean none = i < bars.size() && taken.get(i).size() == 0;
      if (!none) {
        if (to > at) {
          boolean rest = measures.get(at).rest();
          boolean next =
              i == 0
                  || (i < bars.size()
                      && bars.get(i).isRest() == rest
                      && bars.get(i - 1).isRest() != rest);
          left[next ? i : i - 1] += to - at;
        }
        at = i < bars.size() ? taken.get(i).to() : to;
      }
    }
    return left;
  }

  private double cost(int i, int from, int to) {
    Bar bar = bars.get(i);
    int n = to - from;
    if (n == 0) {
      return NO_PARTNER - besideRest(i);
    }
    double cost = length(i, n);
    Measure first = measures.get(from);
    Optional<String> mark = bar.rehearsal().map(RehearsalMark::text);
    if (mark.isPresent() && first.rehearsal().isPresent()) {
      cost += mark.equals(first.rehearsal()) ? SAME_MARK : WRONG_MARK;
    } else if (marked && (mark.isPresent() || first.rehearsal().isPresent())) {
      cost += WRONG_MARK / 2;
    }
    cost += first.multiRest() > 1 && first.multiRest() == n ? SAME_REST : 0;
    List<Alternative> printed = bar.evidence().map(Evidence::numbers).orElse(List.of());
    if (!printed.isEmpty()
        && printed.get(0).text().equals(first.number())
        && isSaid(measures, from)) {
      cost += SAME_NUMBER * printed.get(0).probability();
    }
    if (bar.meter().isPresent() && first.meter().isPresent()) {
      cost += bar.meter().get().sameAs(first.meter().get()) ? 0 : WRONG_METER;
    }
    cost += lines(bar, first, measures.get(to - 1));
    for (int j = from; j < to; j++) {
      boolean inside = j > from && measures.get(j).rehearsal().isPresent();
      cost += inside ? WRONG_MARK : 0;
      cost += bar.isRest() == measures.get(j).rest() ? 0 : WRONG_CONTENT;
    }
    return cost;
  }

  private static double lines(Bar bar, Measure first, Measure last) {
    double cost = agreeing(bar.endBarline(), last.end());
    boolean starts = first.start() == Barline.REPEAT_START;
    cost += (bar.startBarline() == Barline.REPEAT_START) == starts ? 0 : WRONG_LINE;
    cost += starts && bar.startBarline() == Barline.REPEAT_START ? SAME_LINE : 0;
    return cost + (bar.ending().equals(first.ending()) ? 0 : WRONG_LINE);
  }

  private static double agreeing(Barline page, Barline said) {
    if (!isStrong(page) && !isStrong(said)) {
      return 0;
    }
    return page == said ? SAME_LINE : WRONG_LINE;
  }

  private static boolean isStrong(Barline line) {
    return line == Barline.DOUBLE
        || line == Barline.FINAL
        || line == Barline.REPEAT_END
        || line == Barline.REPEAT_BOTH;
  }

  /**
   * How ill a length suits what the page shows: its numeral's own readings, not what was settled.
   */
  private double length(int i, int n) {
    Bar bar = bars.get(i);
    List<Alternative> counts = bar.evidence().map(Evidence::counts).orElse(List.of());
    if (counts.isEmpty()) {
      if (n == bar.count()) {
        return 0;
      }
      return bar.content() == Content.MULTI_REST
          ? MISREAD_COUNT
          : NO_PARTNER + ONE_MORE * Math.max(0, n - 2) - besideRest(i);
    }
    for (Alternative a : counts) {
      if (a.text().equals(Integer.toString(n))) {
        return -Math.log(Math.max(0.05, a.probability()));
      }
    }
    boolean oneOff =
        Marks.oneFigureOff(counts.get(0).text().replaceAll("\\D", ""), 1).containsKey(n);
    return MISREAD_COUNT + (oneOff ? 0 : 0.5);
  }

  private double besideRest(int i) {
    boolean beside =
        !bars.get(i).isRest()
            && ((i > 0 && bars.get(i - 1).isRest())
                || (i + 1 < bars.size() && bars.get(i + 1).isRest()));
    return beside ? BESIDE_REST : 0;
  }

  /**
   * Tells whether a bar's number says more than that the source counted on: where it begins or
   * jumps. A source that lost a bar has every number after it wrong.
   */
  static boolean isSaid(List<Measure> measures, int i) {
    String now = measures.get(i).number();
    if (!now.matches("\\d{1,4}")) {
      return false;
    }
    String before = i == 0 ? "" : measures.get(i - 1).number();
    return !before.matches("\\d{1,4}") || Integer.parseInt(now) != Integer.parseInt(before) + 1;
  }
}
