package org.barmap.reckon.second;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Barline;
import org.barmap.map.Content;
import org.barmap.map.Evidence;
import org.barmap.map.Evidence.Alternative;
import org.barmap.map.MusicalNumber;
import org.barmap.map.RehearsalMark;
import org.barmap.map.SecondReading.Measure;
import org.barmap.reckon.cells.Marks;
import org.barmap.reckon.compare.Aligner;
import org.barmap.reckon.set.CellSettings;
import org.barmap.reckon.set.ReckonSettings;
import org.barmap.reckon.set.SecondSettings;

/**
 * What it costs to say that bars of a second reading belong to an entry of the map.
 *
 * <p>What both say of a bar holds them together: rest or music, marks, meters, barlines, endings,
 * where musical numbers begin. A number that the source merely counted on to says nothing, since
 * one bar more makes all after it wrong: then they would pull the difference away from where it is.
 */
public final class SecondAlignment implements Aligner.Costs {

  private static final SecondSettings.Partners SET = ReckonSettings.STANDARD.second().partners();

  private static final CellSettings.Rests RESTS = ReckonSettings.STANDARD.cells().rests();

  private final List<Bar> bars;
  private final List<Measure> measures;
  private final Set<Integer> starts;
  private final double[] widths;
  private final boolean[] begins;
  private final boolean[] said;

  /** By entry, what each length costs that was asked for. */
  private final Map<Integer, double[]> lengths = new HashMap<>();

  private final boolean numbered;
  private final boolean marked;

  /** How many rests, and how many things that stand at a bar's beginning, come before a measure. */
  private final int[] rests;

  private final int[] breaks;

  private SecondAlignment(BarMap map, List<Measure> measures) {
    this.bars = map.bars();
    this.measures = measures;
    this.marked = measures.stream().anyMatch(m -> m.rehearsal().isPresent());
    this.starts = starts(map);
    this.widths = widths(bars);
    int n = measures.size();
    this.begins = new boolean[n];
    this.said = new boolean[n];
    this.rests = new int[n + 1];
    this.breaks = new int[n + 1];
    boolean again = false;
    for (int j = 0; j < n; j++) {
      Measure m = measures.get(j);
      begins[j] = SecondNumbers.restarts(measures, j);
      said[j] = SecondNumbers.isSaid(measures, j);
      again |= begins[j] && j > 0;
      boolean closed = j > 0 && measures.get(j - 1).end() == Barline.FINAL;
      rests[j + 1] = rests[j] + (m.rest() ? 1 : 0);
      breaks[j + 1] = breaks[j] + (m.rehearsal().isPresent() || begins[j] || closed ? 1 : 0);
    }
    this.numbered = again;
  }

  /** Aligns; what each entry takes, empty where the two are too long to be compared. */
  public static List<Aligner.Taken> of(BarMap map, List<Measure> measures) {
    return Aligner.align(map.bars().size(), measures.size(), new SecondAlignment(map, measures));
  }

  /** Positions of the entries at which musical numbers begin. */
  static Set<Integer> starts(BarMap map) {
    Map<String, Integer> at = new HashMap<>();
    for (int i = 0; i < map.bars().size(); i++) {
      at.put(map.bars().get(i).id(), i);
    }
    Set<Integer> starts = new HashSet<>();
    for (MusicalNumber n : map.numbers()) {
      n.firstBar().map(at::get).ifPresent(starts::add);
    }
    return starts;
  }

  /** How wide each bar of music is for its system: 1 is the usual width there. */
  private static double[] widths(List<Bar> bars) {
    Map<String, List<Double>> systems = new HashMap<>();
    for (Bar b : bars) {
      if (!b.isRest()) {
        systems.computeIfAbsent(system(b), s -> new ArrayList<>()).add(width(b));
      }
    }
    systems.values().forEach(w -> w.sort(Double::compare));
    double[] out = new double[bars.size()];
    for (int i = 0; i < out.length; i++) {
      List<Double> all = systems.getOrDefault(system(bars.get(i)), List.of());
      double usual = all.isEmpty() ? 0 : all.get(all.size() / 2);
      out[i] = bars.get(i).isRest() || usual <= 0 ? 1 : width(bars.get(i)) / usual;
    }
    return out;
  }

  private static String system(Bar b) {
    return b.page() + "/" + b.system();
  }

  private static double width(Bar b) {
    return b.outline().rightMiddle().x() - b.outline().leftMiddle().x();
  }

  @Override
  public int most(int i) {
    if (!bars.get(i).isRest()) {
      return 1;
    }
    int count = Math.min(bars.get(i).count(), RESTS.most());
    return count + count / 2 + SET.longer();
  }

  @Override
  public int usual(int i) {
    return bars.get(i).count();
  }

  @Override
  public double lone(int i, boolean first) {
    if (!first) {
      return SET.oneMore();
    }
    double narrow = SET.wide() * Math.max(0, Math.min(1, 1 - widths[i]));
    boolean beside = !isRest(i) && (isRest(i - 1) || isRest(i + 1));
    return SET.noPartner()
        - (starts.contains(i) ? SET.between() : 0)
        - (beside ? SET.besideRest() : 0)
        - narrow;
  }

  @Override
  public double extra(int i, int j, boolean first) {
    if (!SecondNumbers.isCounted(measures.get(j))) {
      return SET.uncounted();
    }
    boolean between = i == 0 || i == bars.size() || starts.contains(i);
    if (!first) {
      return between ? SET.oneMoreBetween() : SET.oneMore();
    }
    double wide = Math.max(i > 0 ? widths[i - 1] : 0, i < bars.size() ? widths[i] : 0) - 1;
    return SET.noPartner()
        - (isRest(i - 1) || isRest(i) ? SET.besideRest() : 0)
        - SET.wide() * Math.max(0, Math.min(1, wide));
  }

  private boolean isRest(int i) {
    return i >= 0 && i < bars.size() && bars.get(i).isRest();
  }

  @Override
  public double pair(int i, int from, int to) {
    Bar bar = bars.get(i);
    int n = to - from;
    double length = n == 1 && !bar.isRest() ? 0 : lengths(i)[n];
    Measure first = measures.get(from);
    double cost = length + mark(bar, first);
    if (numbered && (begins[from] || starts.contains(i))) {
      cost += begins[from] == starts.contains(i) ? SET.sameStart() : SET.wrongStart();
    }
    cost += first.multiRest() > 1 && first.multiRest() == n ? SET.sameRest() : 0;
    cost += said[from] ? number(bar, first) : 0;
    // a jump in the source's own numbers shows where it lacks bars
    boolean jumps = said[from] && from > 0 && !begins[from];
    cost += jumps && first.number().equals(Integer.toString(bar.number())) ? SET.sameJump() : 0;
    if (bar.meter().isPresent() && first.meter().isPresent()) {
      cost += bar.meter().get().sameAs(first.meter().get()) ? 0 : SET.wrongMeter();
    }
    cost += lines(bar, first, measures.get(to - 1));
    cost += SET.wrongMark() * (breaks[to] - breaks[from + 1]);
    int resting = rests[to] - rests[from];
    double content = SET.wrongContent() * (bar.isRest() ? n - resting : resting);
    // another chair plays where this one rests: the lengths still hold
    return cost + (length < SET.agreed() ? Math.min(content, SET.wrongRest()) : content);
  }

  private double mark(Bar bar, Measure first) {
    Optional<RehearsalMark> mark = bar.rehearsal();
    if (mark.isPresent() && first.rehearsal().isPresent()) {
      return mark.get().text().equals(first.rehearsal().get()) ? SET.sameMark() : SET.wrongMark();
    }
    return marked && (mark.isPresent() || first.rehearsal().isPresent()) ? SET.noMark() : 0;
  }

  private static double number(Bar bar, Measure first) {
    List<Alternative> printed = bar.evidence().map(Evidence::numbers).orElse(List.of());
    return !printed.isEmpty() && printed.get(0).text().equals(first.number())
        ? SET.sameNumber() * printed.get(0).probability()
        : 0;
  }

  private static double lines(Bar bar, Measure first, Measure last) {
    double cost = agreeing(bar.endBarline(), last.end());
    boolean starts = first.start() == Barline.REPEAT_START;
    cost += (bar.startBarline() == Barline.REPEAT_START) == starts ? 0 : SET.wrongLine();
    cost += starts && bar.startBarline() == Barline.REPEAT_START ? SET.sameLine() : 0;
    return cost + (bar.ending().equals(first.ending()) ? 0 : SET.wrongLine());
  }

  private static double agreeing(Barline page, Barline said) {
    if (!isStrong(page) && !isStrong(said)) {
      return 0;
    }
    return page == said ? SET.sameLine() : SET.wrongLine();
  }

  private static boolean isStrong(Barline line) {
    return line == Barline.DOUBLE || line == Barline.FINAL || line.endsRepeat();
  }

  private double[] lengths(int i) {
    return lengths.computeIfAbsent(
        i,
        k -> {
          double[] costs = new double[most(k) + 1];
          for (int n = 1; n < costs.length; n++) {
            costs[n] = length(bars.get(k), n);
          }
          return costs;
        });
  }

  /**
   * How ill a length suits a rest as the page shows it: its numeral's own readings, not what was
   * settled.
   */
  private static double length(Bar bar, int n) {
    double off = SET.offBy() * Math.abs(n - bar.count());
    List<Alternative> counts = bar.evidence().map(Evidence::counts).orElse(List.of());
    if (counts.isEmpty()) {
      return n == bar.count()
          ? 0
          : off + (bar.content() == Content.MULTI_REST ? SET.misreadCount() : SET.noPartner());
    }
    for (Alternative a : counts) {
      if (a.text().equals(Integer.toString(n))) {
        return -Math.log(Math.max(SET.leastCount(), a.probability()));
      }
    }
    boolean oneOff =
        Marks.oneFigureOff(counts.get(0).text().replaceAll("\\D", ""), 1).containsKey(n);
    return off + SET.misreadCount() + (oneOff ? 0 : SET.moreFigures());
  }
}
