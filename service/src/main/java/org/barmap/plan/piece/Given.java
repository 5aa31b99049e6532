package org.barmap.plan.piece;

import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import org.barmap.plan.change.WrittenNumber;

/**
 * What is read of a number and its changes once, however often it is played through to find out
 * what an answer comes to.
 *
 * @param number as written
 * @param spans its changes, looked up
 * @param printed the vamps and safeties in print
 * @param exits where bars that changes hold open are left, by the change
 */
public record Given(
    WrittenNumber number, List<Span> spans, List<PrintedOpen> printed, Map<Span, Integer> exits) {

  /** Reads what is given. */
  public static Given of(WrittenNumber number, List<Span> spans) {
    Map<Span, Integer> exits = new IdentityHashMap<>();
    spans.forEach(s -> Exit.of(number, s).ifPresent(e -> exits.put(s, e)));
    return new Given(number, spans, PrintedOpen.of(number), exits);
  }

  /** Returns the slot of the bar after which a change is left; empty where it names none. */
  public OptionalInt exit(Span span) {
    Integer slot = exits.get(span);
    return slot == null ? OptionalInt.empty() : OptionalInt.of(slot);
  }
}
