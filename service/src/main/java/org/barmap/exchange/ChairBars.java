package org.barmap.exchange;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.plan.change.Addresses;
import org.barmap.plan.change.Found;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.effect.Stretch;
import org.barmap.plan.change.kind.ShowChange;

/**
 * Bars of one book in another book of the same show, whose bars are numbered otherwise: counted on
 * from the rehearsal mark before them, which both books have (common practice).
 *
 * <p>Nothing is said where the books disagree how many bars lie between two marks, or before the
 * first mark where that doesn't lie equally far from the start.
 */
public final class ChairBars {
  private final Map<String, WrittenNumber> here = new HashMap<>();
  private final Map<String, WrittenNumber> there = new HashMap<>();

  /** Looks at two books. */
  public ChairBars(BarMap one, BarMap other) {
    WrittenNumber.all(one).forEach(n -> here.putIfAbsent(n.label(), n));
    WrittenNumber.all(other).forEach(n -> there.putIfAbsent(n.label(), n));
  }

  /** Returns what a bar of the first book is called in the other; empty where that is not sure. */
  public Optional<String> of(String number, String bar) {
    WrittenNumber from = here.get(number);
    WrittenNumber to = there.get(number);
    if (from == null || to == null || !(new Addresses(from).find(bar) instanceof Found.At at)) {
      return Optional.empty();
    }
    int slot = at.place().slot();
    Map<Integer, String> marks = new TreeMap<>(marks(from));
    Map<String, Integer> others = new HashMap<>();
    marks(to).forEach((s, mark) -> others.putIfAbsent(mark, s));
    int base = pickups(from);
    int otherBase = pickups(to);
    boolean marked = false;
    int end = from.slots();
    int otherEnd = to.slots();
    boolean bounded = false;
    for (Map.Entry<Integer, String> mark : marks.entrySet()) {
      Integer other = others.get(mark.getValue());
      if (other == null) {
        continue;
      }
      if (mark.getKey() <= slot) {
        base = mark.getKey();
        otherBase = other;
        marked = true;
      } else {
        end = mark.getKey();
        otherEnd = other;
        bounded = true;
        break;
      }
    }
    boolean agree = end - base == otherEnd - otherBase;
    int target = otherBase + slot - base;
    // behind the last mark the count goes on; between marks both books must have as many bars
    return (agree || (marked && !bounded)) && target >= 0 && target < to.slots()
        ? Optional.of(to.nameAt(target))
        : Optional.empty();
  }

  /**
   * Returns a cut list with the other book's bars behind each line, where they are others: "No. 7:
   * cut 34 to 49 [the director's 42 to 57]".
   *
   * @param whose how the other book is spoken of
   */
  public List<String> beside(List<ShowChange> changes, String whose) {
    return changes.stream().map(c -> CutList.line(c) + said(c, whose)).toList();
  }

  private String said(ShowChange change, String whose) {
    Optional<Stretch> where = change.where();
    if (where.isEmpty()) {
      return "";
    }
    Optional<String> first = of(change.number(), where.get().first());
    Optional<String> last = of(change.number(), where.get().last());
    if (first.isEmpty() || last.isEmpty()) {
      return " [" + whose + " bars are not known]";
    }
    boolean one = first.get().equals(last.get());
    return " [" + whose + " " + (one ? first.get() : first.get() + " to " + last.get()) + "]";
  }

  /** A pickup in one of the books only moves no bar. */
  private static int pickups(WrittenNumber number) {
    int bars = 0;
    while (bars < number.slots() && number.nameAt(bars).equals("0")) {
      bars++;
    }
    return bars;
  }

  /** Marks that stand once in a number, by their slots. */
  private static Map<Integer, String> marks(WrittenNumber number) {
    Map<String, Integer> once = new HashMap<>();
    for (int i = 0; i < number.bars().size(); i++) {
      Bar bar = number.bars().get(i);
      int slot = number.starts()[i];
      bar.rehearsal().ifPresent(m -> once.merge(m.text(), slot, (a, b) -> -1));
    }
    Map<Integer, String> marks = new HashMap<>();
    once.forEach(
        (mark, slot) -> {
          if (slot >= 0) {
            marks.put(slot, mark);
          }
        });
    return marks;
  }
}
