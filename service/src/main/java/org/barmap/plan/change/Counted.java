package org.barmap.plan.change;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.barmap.map.Bar;

/**
 * Counts bars on and back in a musical number, as its numbers do.
 *
 * <p>Where a second ending is numbered like the first, one bar before it comes the bar before both,
 * and one bar after the first ending the bar after the second; one bar on from the bar before them
 * may be either's first.
 */
final class Counted {

  /** Slots at which the endings of each row begin. */
  private final List<List<Integer>> rows = new ArrayList<>();

  Counted(WrittenNumber number) {
    for (Map.Entry<Integer, Integer> e : number.alike().earlier().entrySet()) {
      if (!follows(number, e.getValue(), e.getKey())) {
        continue;
      }
      int from = number.starts()[e.getValue()];
      List<Integer> last = rows.isEmpty() ? List.of() : rows.get(rows.size() - 1);
      if (last.isEmpty() || last.get(last.size() - 1) != from) {
        last = new ArrayList<>(List.of(from));
        rows.add(last);
      }
      last.add(number.starts()[e.getKey()]);
    }
    behindLone(number);
  }

  /** What follows a first ending that stands alone is the second, and may be numbered like it. */
  private void behindLone(WrittenNumber number) {
    List<Bar> bars = number.bars();
    int from = -1;
    for (int i = 0; i < bars.size(); i++) {
      List<Integer> ending = bars.get(i).ending();
      List<Integer> before = i == 0 ? List.of() : bars.get(i - 1).ending();
      if (ending.isEmpty() && from >= 0 && bars.get(i).number() == bars.get(from).number()) {
        rows.add(List.of(number.starts()[from], number.starts()[i]));
      }
      if (!ending.equals(before)) {
        from = before.isEmpty() ? i : -1;
      }
    }
  }

  /**
   * Whether nothing stands between an ending and one numbered like it that would be jumped over.
   */
  private static boolean follows(WrittenNumber number, int before, int ending) {
    return number.bars().subList(before, ending).stream()
        .allMatch(b -> b.ending().equals(number.bars().get(before).ending()));
  }

  /** Returns the slots that may be meant by so many bars on, or back, from a slot. */
  Set<Integer> from(int slot, int bars) {
    if (rows.isEmpty()) {
      return Set.of(slot + bars);
    }
    Set<Integer> at = Set.of(slot);
    for (int i = 0; i < Math.abs(bars); i++) {
      Set<Integer> next = new TreeSet<>();
      for (int s : at) {
        next.addAll(bars > 0 ? after(s) : List.of(before(s)));
      }
      at = next;
    }
    return at;
  }

  private List<Integer> after(int slot) {
    for (List<Integer> row : rows) {
      int last = row.get(row.size() - 1);
      if (slot + 1 == row.get(0)) {
        return row;
      }
      for (int i = 1; i < row.size(); i++) {
        if (slot + 1 == row.get(i)) {
          return List.of(last + row.get(i) - row.get(i - 1));
        }
      }
    }
    return List.of(slot + 1);
  }

  private int before(int slot) {
    for (List<Integer> row : rows) {
      if (row.subList(1, row.size()).contains(slot)) {
        return row.get(0) - 1;
      }
    }
    return slot - 1;
  }
}
