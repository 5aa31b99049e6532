package org.barmap.bench;

import java.io.IOException;
import java.util.Map;
import org.barmap.map.BarMap;

/**
 * Measures what follows a step in a book of 3,000 bars: a correction computed and kept, a change
 * planned; a book settled again after a correction, in one that keeps what was read; and what a
 * page waits for at a running service of that book, from request to answer, and a person at the
 * desk in Chromium.
 */
final class EditBench {

  /** Both pass code that the compiler takes a hundred steps to have ready; fewer time the start. */
  private static final int WARM_UP = 100;

  private EditBench() {}

  static void measure(Map<String, Object> figures, Rounds rounds) throws IOException {
    BarMap map = MadeMap.of(MadeMap.USUAL);
    figures.put("editBars", map.writtenBars());
    figures.put("editMillis", CorrectBench.medianMillis(rounds));
    figures.put("editKeptMillis", rounds.medianMillis(LibraryClicks.corrected(map), WARM_UP));
    figures.put("changePlannedMillis", rounds.medianMillis(LibraryClicks.planned(map), WARM_UP));
    SettleBench.measure(figures, rounds);
    RouteClicks.measure(figures, rounds);
  }
}
