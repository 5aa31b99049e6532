package org.barmap.exchange.mei;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.barmap.map.Bar;
import org.barmap.plan.NumberPlan;

/**
 * The stretches of a number that are always played whole, and the order in which they come: what
 * MEI calls sections, endings and their expansion.
 *
 * @param starts index of the first bar of each stretch
 * @param order which stretch comes when; empty where a stretch is not played whole
 */
record Segments(List<Integer> starts, List<Integer> order) {

  /** Takes copies. */
  Segments {
    starts = List.copyOf(starts);
    order = List.copyOf(order);
  }

  /** Cuts a number wherever an ending begins or ends, or the order of play leaves the page's. */
  static Segments of(List<Bar> bars, List<NumberPlan.Entry> played) {
    boolean[] starts = new boolean[bars.size() + 1];
    starts[0] = true;
    for (int i = 1; i < bars.size(); i++) {
      Bar before = bars.get(i - 1);
      boolean closed = !before.ending().isEmpty() && before.endBarline().endsRepeat();
      starts[i] = closed || !before.ending().equals(bars.get(i).ending());
    }
    List<Integer> steps = steps(bars, played);
    int last = -1;
    for (int step : steps) {
      if (step != last + 1) {
        starts[last + 1] = true;
        starts[step] = true;
      }
      last = step;
    }
    starts[last + 1] = true;
    List<Integer> from = new ArrayList<>();
    Map<Integer, Integer> segmentAt = new HashMap<>();
    for (int i = 0; i < bars.size(); i++) {
      if (starts[i]) {
        segmentAt.put(i, from.size());
        from.add(i);
      }
    }
    List<Integer> order = new ArrayList<>();
    for (int step : steps) {
      if (segmentAt.containsKey(step)) {
        order.add(segmentAt.get(step));
      }
    }
    return new Segments(from, order);
  }

  /** The bars as they sound; none where a multi-bar rest is not played whole. */
  private static List<Integer> steps(List<Bar> bars, List<NumberPlan.Entry> played) {
    Map<String, Integer> places = new HashMap<>();
    for (int i = 0; i < bars.size(); i++) {
      places.put(bars.get(i).id(), i);
    }
    List<Integer> steps = new ArrayList<>();
    for (NumberPlan.Entry entry : played) {
      Integer place = places.get(entry.bar());
      if (place == null || entry.from().isPresent() || entry.bars().isPresent()) {
        return List.of();
      }
      steps.add(place);
    }
    return steps;
  }

  /** Returns the index after the last bar of a stretch. */
  int end(int segment, int bars) {
    return segment + 1 < starts.size() ? starts.get(segment + 1) : bars;
  }
}
