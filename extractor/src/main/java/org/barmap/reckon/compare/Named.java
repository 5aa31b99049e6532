package org.barmap.reckon.compare;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.barmap.map.Navigation;
import org.barmap.reckon.compare.BarPairs.Pin;
import org.barmap.reckon.compare.NumberComparison.Single;

/**
 * Places that both parts name: a rehearsal mark, a segno or a coda that stands once in each. A
 * change of meter or a repeat is none: where one part has bars more, it may come with them.
 */
final class Named {

  private static final int TWICE = -1;

  private Named() {}

  /**
   * Returns the places between two others, those that cross fewest others; in order.
   *
   * @param from included
   * @param to not included
   */
  static List<Pin> of(List<Single> a, List<Single> b, Pin from, Pin to) {
    Map<String, Integer> mine = names(a, from.first(), to.first());
    Map<String, Integer> others = names(b, from.second(), to.second());
    List<Pin> both = new ArrayList<>();
    mine.forEach(
        (name, i) -> {
          int j = others.getOrDefault(name, TWICE);
          if (i != TWICE && j != TWICE) {
            both.add(new Pin(i, j));
          }
        });
    both.sort(Comparator.comparingInt(Pin::first).thenComparingInt(Pin::second));
    return longest(both);
  }

  private static Map<String, Integer> names(List<Single> part, int from, int to) {
    Map<String, Integer> names = new HashMap<>();
    for (int i = from; i < to; i++) {
      Single bar = part.get(i);
      int at = i;
      bar.mark().ifPresent(m -> names.merge("mark " + m, at, (x, y) -> TWICE));
      for (Navigation sign : List.of(Navigation.SEGNO, Navigation.CODA)) {
        if (bar.has(sign)) {
          names.merge(sign.word(), at, (x, y) -> TWICE);
        }
      }
    }
    return names;
  }

  /** The longest run of places that come in the same order in both parts. */
  private static List<Pin> longest(List<Pin> places) {
    int[] length = new int[places.size()];
    int[] before = new int[places.size()];
    int best = -1;
    for (int k = 0; k < places.size(); k++) {
      before[k] = -1;
      for (int p = 0; p < k; p++) {
        boolean ordered =
            places.get(p).first() < places.get(k).first()
                && places.get(p).second() < places.get(k).second();
        if (ordered && length[p] + 1 > length[k]) {
          length[k] = length[p] + 1;
          before[k] = p;
        }
      }
      best = best < 0 || length[k] > length[best] ? k : best;
    }
    List<Pin> run = new ArrayList<>();
    for (int k = best; k >= 0; k = before[k]) {
      run.add(places.get(k));
    }
    Collections.reverse(run);
    return run;
  }
}
