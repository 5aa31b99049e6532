package org.barmap.reckon.cells;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;
import org.barmap.map.Meter;
import org.barmap.reckon.set.CellSettings;
import org.barmap.reckon.set.ReckonSettings;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;

/**
 * How long the bars of a book are: what its meters say, and where none was read (or most bars hold
 * something else, so that one was misread or overlooked), what most bars hold.
 */
public final class BarLengths {

  private static final CellSettings.Lengths SET = ReckonSettings.STANDARD.cells().lengths();

  /** Cells under one meter; {@code meter} is empty before the first one. */
  private static final class Stretch {
    final OptionalDouble meter;
    final Map<Long, Integer> sums = new TreeMap<>();
    int cells;

    Stretch(OptionalDouble meter) {
      this.meter = meter;
    }

    void add(double quarters) {
      sums.merge(Math.round(quarters * SET.ticks()), 1, Integer::sum);
      cells++;
    }

    /** Length of its bars in quarter notes. */
    OptionalDouble length() {
      Optional<Map.Entry<Long, Integer>> most =
          sums.entrySet().stream().max(Map.Entry.comparingByValue());
      if (most.isEmpty() || cells < SET.few() || most.get().getValue() < SET.most() * cells) {
        return meter;
      }
      double said = meter.orElse(-1);
      int fitting = sums.getOrDefault(Math.round(said * SET.ticks()), 0);
      return fitting > SET.hardlyAny() * cells
          ? meter
          : OptionalDouble.of(most.get().getKey() / (double) SET.ticks());
    }
  }

  /** Where a stretch begins on a system. */
  private record Begin(double at, Stretch stretch) {}

  private BarLengths() {}

  /** The same systems, each with what its notes are worth and how long its bars are. */
  public static List<SystemCells> along(List<SystemCells> systems) {
    List<List<Begin>> begins = new ArrayList<>();
    Stretch now = new Stretch(OptionalDouble.empty());
    for (SystemCells cells : systems) {
      List<Begin> own = new ArrayList<>();
      own.add(new Begin(Double.NEGATIVE_INFINITY, now));
      for (Sign sign : meters(cells)) {
        now = new Stretch(OptionalDouble.of(quarters(sign).orElseThrow()));
        own.add(new Begin(sign.at(), now));
      }
      begins.add(own);
      sum(cells, own);
    }
    List<SystemCells> out = new ArrayList<>();
    for (int i = 0; i < systems.size(); i++) {
      List<Beats.Length> lengths = new ArrayList<>();
      for (Begin b : begins.get(i)) {
        b.stretch().length().ifPresent(l -> lengths.add(new Beats.Length(b.at(), l)));
      }
      out.add(systems.get(i).with(Beats.of(systems.get(i), lengths)));
    }
    Room.pages(systems).forEach(page -> understood(out.subList(page.from(), page.to())));
    return List.copyOf(out);
  }

  /**
   * Where few cells of a page hold a whole number of bars its notes are misread, and nothing is
   * concluded from them.
   */
  private static void understood(List<SystemCells> page) {
    int known = 0;
    int whole = 0;
    for (SystemCells cells : page) {
      for (int c = 0; c < cells.lines().size(); c++) {
        Fill.Bars bars = cells.beats().fill(cells.beatsFrom(c), cells.to(c), 0).bars();
        boolean music = GapEvidence.whole(cells, c).isEmpty() && bars != Fill.Bars.UNKNOWN;
        known += music ? 1 : 0;
        whole += music && bars != Fill.Bars.OTHER ? 1 : 0;
      }
    }
    if (known >= SET.few() && whole < SET.leastWhole() * known) {
      page.replaceAll(cells -> cells.with(Beats.of(cells, List.of())));
    }
  }

  private static void sum(SystemCells cells, List<Begin> begins) {
    Beats beats = Beats.of(cells, List.of());
    for (int c = 0; c < cells.lines().size(); c++) {
      double from = cells.beatsFrom(c);
      double to = cells.to(c);
      OptionalDouble sum =
          GapEvidence.whole(cells, c).isEmpty() ? beats.between(from, to) : OptionalDouble.empty();
      Stretch under = Beats.inForce(begins, Begin::at, from, to).orElseThrow().stretch();
      sum.ifPresent(under::add);
    }
  }

  private static List<Sign> meters(SystemCells cells) {
    return cells.signs(SignKind.METER).stream()
        .filter(s -> s.probability() >= SET.there() && quarters(s).isPresent())
        .sorted(Comparator.comparingDouble(Sign::at))
        .toList();
  }

  private static Optional<Double> quarters(Sign sign) {
    return Meters.of(sign).map(Meter::quarters);
  }
}
