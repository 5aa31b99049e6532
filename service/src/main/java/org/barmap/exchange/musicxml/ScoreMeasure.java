package org.barmap.exchange.musicxml;

import java.util.List;
import java.util.Set;
import org.barmap.map.Navigation;
import org.barmap.map.SecondReading;

/**
 * One measure as read, with what may be asked about it.
 *
 * @param said what it says
 * @param doubts what the file says of it in two ways, one sentence each
 * @param early signs that count at a bar's end, though the file has them before its first note
 * @param late signs that count at a bar's start, though the file has them behind its last note
 * @param bareCoda its coda sign stands there without a word or a sound that says what it means
 */
public record ScoreMeasure(
    SecondReading.Measure said,
    List<String> doubts,
    Set<Navigation> early,
    Set<Navigation> late,
    boolean bareCoda) {

  /** Takes defensive copies. */
  public ScoreMeasure {
    doubts = List.copyOf(doubts);
    early = Set.copyOf(early);
    late = Set.copyOf(late);
  }
}
