package org.barmap.edit.draft;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.barmap.map.Bar;
import org.barmap.map.Page;
import org.barmap.map.StaffSystem;

/**
 * Numbers bars again after a correction.
 *
 * <p>Bars count on from each other inside a musical number. What was out of step before stays out
 * of step by as much (an inserted bar, a number skipped in print), except where a printed bar
 * number had to be jumped to: there the print still holds. An ending that was numbered like the one
 * before it stays so, however long that one is now. A number set by a person never changes. When
 * nothing was corrected, no number changes.
 */
public final class Recount {

  private Recount() {}

  /** Returns the second draft with its bars numbered again; the first is the draft it came from. */
  public static Draft numbered(Draft before, Draft after) {
    return numbered(Steps.of(before), after, Set.of());
  }

  /**
   * Returns a draft with its bars numbered again.
   *
   * @param old how the numbers went on before
   * @param after the draft
   * @param kept ids of bars whose numbers stay
   */
  public static Draft numbered(Steps old, Draft after, Set<String> kept) {
    Set<String> starts = Steps.startsOf(after.map());
    Set<String> printed = printed(old, after);
    List<Bar> bars = new ArrayList<>();
    Map<String, Integer> numbers = new HashMap<>();
    Optional<Bar> last = Optional.empty();
    for (Bar bar : after.map().bars()) {
      boolean fixed =
          after.settled().has(bar.id(), Aspect.NUMBER)
              || printed.contains(bar.id())
              || kept.contains(bar.id());
      int number = bar.number();
      if (!fixed && (last.isEmpty() || starts.contains(bar.id()))) {
        number = old.starts().contains(bar.id()) ? old.numbers().getOrDefault(bar.id(), 1) : 1;
      } else if (!fixed && numbers.containsKey(old.back().getOrDefault(bar.id(), ""))) {
        number = numbers.getOrDefault(old.back().getOrDefault(bar.id(), ""), number);
      } else if (!fixed) {
        int step = old.steps().getOrDefault(bar.id(), 0);
        number = Math.max(0, last.orElseThrow().nextNumber() + step);
      }
      Bar numbered = number == bar.number() ? bar : bar.toBuilder().number(number).build();
      bars.add(numbered);
      numbers.put(bar.id(), number);
      last = Optional.of(numbered);
    }
    return after.withBars(bars);
  }

  private record Line(int page, int system) {}

  /** Returns the bars at which a printed number had to be jumped to. */
  private static Set<String> printed(Steps old, Draft after) {
    Map<Line, StaffSystem> systems = new HashMap<>();
    for (Page page : after.map().pages()) {
      page.systems().forEach(s -> systems.put(new Line(page.index(), s.index()), s));
    }
    Set<String> fixed = new HashSet<>();
    Set<Line> seen = new HashSet<>();
    for (Bar bar : after.map().bars()) {
      Line place = new Line(bar.page(), bar.system());
      StaffSystem system = systems.get(place);
      if (seen.add(place)
          && system != null
          && system.printedBarNumber().isPresent()
          && system.printedBarNumber().equals(Optional.ofNullable(old.numbers().get(bar.id())))
          && old.steps().getOrDefault(bar.id(), 0) != 0
          && !old.back().containsKey(bar.id())) {
        fixed.add(bar.id());
      }
    }
    return fixed;
  }
}
