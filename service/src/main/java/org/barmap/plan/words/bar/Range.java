package org.barmap.plan.words.bar;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * A stretch of bars as it is said: "34 to 49", "60-61", "from the end of 6 to the beginning of 12",
 * "the 4 bars before B", "the last 8 bars", or one bar.
 *
 * @param ways the stretches that may be meant, the likelier first; empty when refused
 * @param why why there is more than one, or none
 * @param candidates when refused
 * @param none there may be no bars at all: what begins behind a section ends with it
 */
public record Range(List<Way> ways, String why, List<String> candidates, boolean none) {

  /** Nobody chooses among more. */
  private static final int MOST_WAYS = 6;

  /** Takes defensive copies. */
  public Range {
    ways = List.copyOf(ways);
    candidates = List.copyOf(candidates);
  }

  /** Bars, or none for what is wrong. */
  public Range(List<Way> ways, String why, List<String> candidates) {
    this(ways, why, candidates, false);
  }

  static Range refused(String why, List<String> candidates) {
    return new Range(List.of(), why, candidates);
  }

  static Range of(Way way) {
    return new Range(List.of(way), "", List.of());
  }

  /**
   * Reads a stretch of bars of a number.
   *
   * @param landing a rehearsal mark behind "to" is where one lands; else it is the last bar
   */
  public static Range read(Scope scope, String words, boolean landing) {
    String text = Edges.plain(words);
    Optional<Range> read = Blocks.read(scope, text);
    return read.orElseGet(() -> Edges.read(scope, text, landing));
  }

  /** All ways from one end to the other that go forward. */
  static Range between(Scope scope, Edge from, Edge to) {
    if (from.refused()) {
      return refused(from.why(), from.candidates());
    }
    if (to.refused()) {
      return refused(to.why(), to.candidates());
    }
    List<Way> ways = new ArrayList<>();
    String wrong = "";
    boolean none = false;
    for (Edge.At a : from.ats()) {
      for (Edge.At b : to.ats()) {
        String backwards = Way.wrong(scope, a, b);
        if (backwards.isEmpty()) {
          Way.of(scope, a, b).stream().filter(w -> !ways.contains(w)).forEach(ways::add);
        } else {
          wrong = wrong.isEmpty() ? backwards : wrong;
          none |= from.why().equals(Edges.AFTER_MARK) && a.place().slot() == b.place().slot() + 1;
        }
      }
    }
    if (ways.isEmpty()) {
      return refused(wrong, List.of());
    }
    String why = from.why().isEmpty() ? to.why() : from.why();
    boolean beats = ways.stream().anyMatch(Way::named);
    String because =
        why.isEmpty() && beats ? "Beats as the director shows them, or as the meter counts" : why;
    return new Range(ways.subList(0, Math.min(MOST_WAYS, ways.size())), because, List.of(), none);
  }
}
