package org.barmap.plan.trap;

import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.barmap.plan.mark.PencilMark;
import org.barmap.plan.rest.LongRest;

/** Entrances after long rests, with their count. */
final class RestTraps {
  /**
   * Bars from which a rest as printed is told: shorter ones are counted by the way. Two bars' and
   * four bars' rests stand on every page of a part (chosen by looking at the demo book's sheet).
   */
  private static final int LONG = 8;

  private RestTraps() {}

  /**
   * Adds the rests of a number.
   *
   * @param counts marks that rewrite the count of a rest, by its bar entry
   */
  static void add(TrapList traps, List<LongRest> rests, Map<String, PencilMark> counts) {
    Set<String> told = new HashSet<>();
    for (LongRest rest : rests) {
      boolean changed = false;
      // a rest that begins elsewhere has no bars here to look at
      int first = traps.entry(rest.first()).orElse(Integer.MAX_VALUE);
      int last = traps.entry(rest.last()).orElse(first == Integer.MAX_VALUE ? -1 : first);
      for (int i = first; i <= last; i++) {
        if (counts.containsKey(traps.at(i).id())) {
          changed = true;
          told.add(traps.at(i).id());
        }
      }
      boolean otherwise = changed || rest.count().size() > 1;
      if (otherwise || (rest.bars() >= LONG && rest.entrance().isPresent())) {
        traps.add(rest.first(), Trap.Kind.ENTRANCE, otherwise, text(traps, rest), rest.unsure());
      }
    }
    for (PencilMark mark : counts.values()) {
      if (!told.contains(mark.bar())) {
        String text = "Bar " + mark.where() + ": the rest is now " + mark.sign();
        traps.add(mark.bar(), Trap.Kind.ENTRANCE, true, text, mark.unsure());
      }
    }
  }

  private static String text(TrapList traps, LongRest rest) {
    String in =
        rest.entrance()
            .flatMap(traps::entry)
            .map(e -> "In at bar " + traps.name(e) + mark(traps, e) + " after ")
            .orElse("To the end of the number: ");
    String pass =
        rest.passes().isEmpty() || rest.passes().get(0) == 1 || rest.passes().size() > 1
            ? ""
            : ", pass " + rest.passes().get(0);
    return in + rest.text().replaceFirst("\\.$", "") + pass;
  }

  private static String mark(TrapList traps, int entry) {
    return traps
        .at(entry)
        .rehearsal()
        .filter(m -> !m.text().equals(traps.name(entry)))
        .map(m -> " [" + m.text() + "]")
        .orElse("");
  }
}
