package org.barmap.plan;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.barmap.map.Bar;
import org.barmap.map.Barline;
import org.barmap.map.Navigation;

/**
 * Plays a form bar by bar with nothing but a finger on the page: it looks left for the matching
 * forward repeat when it meets a backward one, and keeps a tally at every repeat sign. It knows
 * neither the planner's loops nor its classes. Endings of one repeat only; one D.C. or D.S.
 */
final class NaivePlayer {
  private final List<Bar> bars;
  private final Map<Integer, Integer> tally = new HashMap<>();
  private final List<String> heard = new ArrayList<>();
  private boolean back;
  private int backFrom = -1;
  private boolean inCoda;

  NaivePlayer(List<Bar> bars) {
    this.bars = bars;
  }

  List<String> play() {
    int at = 0;
    while (at < bars.size() && heard.size() < 20_000) {
      Bar bar = bars.get(at);
      if (!bar.ending().isEmpty() && !bar.ending().contains(passAt(at))) {
        at++;
        continue;
      }
      heard.add(bar.id());
      int repeat = repeatFrom(at);
      if (repeat >= 0) {
        clearInside(repeat, at);
        at = repeat;
        continue;
      }
      if (back && !inCoda && bar.has(Navigation.FINE) && !hasToCoda()) {
        return heard;
      }
      if (inCoda && bar.has(Navigation.FINE)) {
        return heard;
      }
      if (back && !inCoda && bar.has(Navigation.TO_CODA)) {
        inCoda = true;
        at = find(Navigation.CODA, at + 1);
        continue;
      }
      boolean jump = bar.has(Navigation.DA_CAPO) || bar.has(Navigation.DAL_SEGNO);
      if (jump && !back) {
        back = true;
        backFrom = at;
        tally.clear();
        at = bar.has(Navigation.DA_CAPO) ? 0 : find(Navigation.SEGNO, 0);
        continue;
      }
      at++;
    }
    return heard;
  }

  /** Where a backward repeat at a bar leads, or -1 when it is not taken. */
  private int repeatFrom(int at) {
    if (bars.get(at).endBarline() != Barline.REPEAT_END) {
      return -1;
    }
    if (back && !inCoda && at <= backFrom) {
      return -1;
    }
    List<Integer> ending = bars.get(at).ending();
    int start = startOf(at);
    if (ending.isEmpty()) {
      int done = tally.merge(at, 1, Integer::sum);
      return done < bars.get(at).times().orElse(2) ? start : -1;
    }
    tally.merge(-1 - start, 1, Integer::sum);
    return start;
  }

  /**
   * Looks left for the forward repeat that is still open; when there is none, the bar after the
   * last repeat sign, or the start.
   */
  private int startOf(int at) {
    int depth = 0;
    int fallback = -1;
    for (int i = at; i >= 0; i--) {
      boolean closes = bars.get(i).endBarline() == Barline.REPEAT_END && i != at;
      boolean sameGroup = !bars.get(i).ending().isEmpty() && !bars.get(at).ending().isEmpty();
      if (closes && !sameGroup) {
        depth++;
        fallback = fallback < 0 ? i + 1 : fallback;
      }
      if (bars.get(i).startBarline() == Barline.REPEAT_START) {
        if (depth == 0) {
          return i;
        }
        depth--;
      }
    }
    return Math.max(0, fallback);
  }

  private int passAt(int at) {
    int last = at;
    while (last + 1 < bars.size() && !bars.get(last + 1).ending().isEmpty()) {
      last++;
    }
    if (back && !inCoda && at <= backFrom) {
      return bars.get(last).ending().stream().mapToInt(v -> v).max().orElse(1);
    }
    return tally.getOrDefault(-1 - startOf(at), 0) + 1;
  }

  private void clearInside(int from, int to) {
    Set<Integer> inside = new HashSet<>();
    for (int key : tally.keySet()) {
      boolean group = key < 0 && -1 - key > from && -1 - key <= to;
      if ((key >= from && key < to) || group) {
        inside.add(key);
      }
    }
    inside.forEach(tally::remove);
  }

  private boolean hasToCoda() {
    return bars.stream().anyMatch(b -> b.has(Navigation.TO_CODA));
  }

  private int find(Navigation sign, int from) {
    for (int i = from; i < bars.size(); i++) {
      if (bars.get(i).has(sign)) {
        return i;
      }
    }
    return bars.size();
  }
}
