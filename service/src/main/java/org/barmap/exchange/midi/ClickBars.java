package org.barmap.exchange.midi;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.barmap.map.Bar;
import org.barmap.map.Meter;
import org.barmap.map.Navigation;
import org.barmap.map.RehearsalMark;
import org.barmap.plan.NumberPlan;
import org.barmap.plan.order.OpenStretch;
import org.barmap.plan.pace.Clock;
import org.barmap.plan.pace.Holds;

/** Makes single bars to click out of a planned number. */
final class ClickBars {
  private static final Meter COMMON = new Meter(4, 4, false);

  private final Map<String, Bar> written;
  private final Map<Integer, NumberPlan.Stretch> stretches = new HashMap<>();
  private final Map<Integer, List<String>> open = new HashMap<>();
  private final List<ClickBar> bars = new ArrayList<>();
  private final TreeMap<Integer, NumberPlan.Stretch> ramps = new TreeMap<>();
  private Optional<NumberPlan.Stretch> now = Optional.empty();

  /** Meter of the bar played next. */
  private Optional<Meter> next = Optional.empty();

  private ClickBars(NumberPlan plan, Map<String, Bar> written) {
    this.written = written;
    for (NumberPlan.Stretch stretch : plan.pace()) {
      stretches.put(stretch.from(), stretch);
      if (stretch.toPerMinute().isPresent()) {
        ramps.put(stretch.from(), stretch);
      }
    }
    for (OpenStretch stretch : plan.open()) {
      stretch
          .places()
          .forEach(p -> open.computeIfAbsent(p.from(), k -> new ArrayList<>()).add(said(stretch)));
    }
  }

  /** Returns the bars in the order they sound; empty for a number that is not played. */
  static List<ClickBar> of(NumberPlan plan, Map<String, Bar> written) {
    ClickBars all = new ClickBars(plan, written);
    List<NumberPlan.Entry> order = plan.order();
    for (int i = 0; i < order.size(); i++) {
      String next = order.get(Math.min(i + 1, order.size() - 1)).bar();
      all.next = Optional.ofNullable(written.get(next)).flatMap(Bar::meter);
      all.entry(order.get(i));
    }
    all.ramps();
    return List.copyOf(all.bars);
  }

  /** A vamp is written once, for nobody knows how often it goes. */
  private static String said(OpenStretch stretch) {
    return stretch.says()
        + (stretch.kind() == OpenStretch.Kind.VAMP ? " (here once)" : " (not repeated here)");
  }

  private void entry(NumberPlan.Entry entry) {
    Bar bar = written.get(entry.bar());
    if (bar == null) {
      return;
    }
    int from = entry.from().orElse(1) - 1;
    int many = entry.bars().orElse(entry.inserted().isPresent() ? 1 : bar.count());
    Optional<Meter> meter =
        entry.added().flatMap(a -> a.meter()).map(ClickBars::meter).or(bar::meter);
    for (int i = 0; i < many; i++) {
      int at = bars.size();
      now = Optional.ofNullable(stretches.get(at)).or(() -> now);
      bars.add(
          bar(
              entry,
              bar,
              meter,
              from + i,
              i == 0,
              i == many - 1,
              open.getOrDefault(at, List.of())));
    }
  }

  private ClickBar bar(
      NumberPlan.Entry entry,
      Bar bar,
      Optional<Meter> meter,
      int offset,
      boolean first,
      boolean last,
      List<String> stretches) {
    Meter in = meter.orElse(COMMON);
    int shown = now.map(NumberPlan.Stretch::beats).filter(b -> b > 0).orElse(Clock.usualBeats(in));
    double unit = 4.0 / in.unit();
    double cut = first ? entry.beatsCut().orElse(0.0) * unit : 0;
    double cutStart = first ? entry.beatsCutStart().orElse(0.0) * unit : 0;
    List<String> markers = new ArrayList<>();
    boolean added = entry.inserted().isPresent();
    if (first && offset == 0 && !added) {
      bar.rehearsal().map(RehearsalMark::text).ifPresent(markers::add);
    }
    markers.addAll(stretches);
    boolean upbeat = next.filter(n -> n.quarters() > in.quarters()).isPresent();
    if (bar.number() == 0 && bar.label().isEmpty() && !added && !upbeat) {
      markers.add("pickup: its length isn't known, a whole bar is clicked");
    }
    boolean pause =
        offset == 0 && bar.isRest() && bar.words().stream().anyMatch(w -> Holds.isPause(w.text()));
    if (pause && !added) {
      markers.add("general pause: how long is the director's");
    } else if (last && !added && holds(bar)) {
      markers.add("hold: how long is the director's");
    }
    int place = offset - (entry.from().orElse(1) - 1);
    String name =
        entry
            .added()
            .map(a -> a.names())
            .filter(n -> place < n.size())
            .map(n -> n.get(place))
            .or(() -> entry.inserted())
            .or(() -> offset == 0 ? bar.label() : Optional.empty())
            .orElse(Integer.toString(bar.number() + offset));
    return new ClickBar(
        name,
        entry.pass(),
        meter,
        in.quarters() / shown,
        Math.max(in.quarters() - cut, unit / 4),
        cutStart,
        pause && !added,
        now.flatMap(NumberPlan.Stretch::perMinute).map(t -> new ClickBar.Tempo(t, t)),
        markers);
  }

  private static boolean holds(Bar bar) {
    return bar.has(Navigation.FERMATA)
        || bar.has(Navigation.CAESURA)
        || bar.words().stream().anyMatch(w -> Holds.isPause(w.text()));
  }

  private static Meter meter(String said) {
    String[] figures = said.split("/", 2);
    return new Meter(Integer.parseInt(figures[0]), Integer.parseInt(figures[1]), false);
  }

  /** A tempo that changes by and by is a straight line over the quarters of its stretch. */
  private void ramps() {
    for (NumberPlan.Stretch ramp : ramps.values()) {
      int to = ramp.from() + 1;
      while (to < bars.size() && !stretches.containsKey(to)) {
        to++;
      }
      if (ramp.perMinute().isEmpty() || ramp.from() >= bars.size()) {
        continue;
      }
      double start = ramp.perMinute().get();
      double change = ramp.toPerMinute().orElse(start) - start;
      double whole = bars.subList(ramp.from(), to).stream().mapToDouble(ClickBar::quarters).sum();
      double passed = 0;
      for (int i = ramp.from(); i < to; i++) {
        double next = passed + bars.get(i).quarters();
        bars.set(
            i,
            bars.get(i)
                .at(
                    new ClickBar.Tempo(
                        start + change * passed / whole, start + change * next / whole)));
        passed = next;
      }
    }
  }
}
