package org.barmap.reckon.second;

import java.util.List;
import org.barmap.map.Bar;
import org.barmap.map.Barline;
import org.barmap.map.SecondReading.Measure;
import org.barmap.reckon.compare.Aligner;

/** Tells whether bars more are a repeat that the source writes out; then nothing differs. */
final class WrittenOut {

  private WrittenOut() {}

  /**
   * Tells whether a repeat of the page accounts for extra bars of the source.
   *
   * @param at the entry the extra bars stand before
   * @param extra how many they are
   */
  static boolean bySource(
      List<Bar> bars, List<Measure> measures, List<Aligner.Taken> taken, int at, int extra) {
    for (int end = 0; end < bars.size(); end++) {
      if (!bars.get(end).endBarline().endsRepeat() || repeats(measures, taken.get(end))) {
        continue;
      }
      int start = start(bars, end);
      int last = lastEnding(bars, end);
      int body = 0;
      int ending = 0;
      for (int i = start; i <= end; i++) {
        body += bars.get(i).count();
        ending += bars.get(i).ending().isEmpty() ? 0 : bars.get(i).count();
      }
      int again = bars.get(end).times().orElse(2) - 1;
      boolean fits = extra == again * body || (ending > 0 && extra == again * (body - ending));
      // which of the equal bars are the ones more can't be told: they may stand beside the repeat
      if (fits && at >= start - extra && at <= last + 1 + extra) {
        return true;
      }
    }
    return false;
  }

  /** The entry at which the repeat that ends at another begins. */
  private static int start(List<Bar> bars, int end) {
    int i = end;
    while (i > 0
        && bars.get(i).startBarline() != Barline.REPEAT_START
        && bars.get(i).startBarline() != Barline.REPEAT_BOTH
        && bars.get(i - 1).endBarline() != Barline.REPEAT_BOTH
        && !(i < end && bars.get(i - 1).endBarline().endsRepeat())
        && bars.get(i - 1).endBarline() != Barline.FINAL) {
      i--;
    }
    return i;
  }

  /** The last entry of the endings that follow a repeat. */
  private static int lastEnding(List<Bar> bars, int end) {
    int i = end;
    while (i + 1 < bars.size()
        && !bars.get(end).ending().isEmpty()
        && !bars.get(i + 1).ending().isEmpty()) {
      i++;
    }
    return i;
  }

  private static boolean repeats(List<Measure> measures, Aligner.Taken taken) {
    return taken.size() > 0 && measures.get(taken.to() - 1).end().endsRepeat();
  }
}
