package org.barmap.reckon.cells;

import org.barmap.reckon.set.CellSettings;
import org.barmap.reckon.set.ReckonSettings;

/**
 * How many bars the notes and rests between two barlines add up to.
 *
 * @param bars what they add up to
 * @param octaves how many times that is twice one bar, below 0 for less; 0 where it isn't known
 */
public record Fill(Bars bars, double octaves) {

  private static final CellSettings.Filled SET = ReckonSettings.STANDARD.cells().filled();

  /** What notes and rests add up to. */
  public enum Bars {
    /** No note was read, or no meter is known. */
    UNKNOWN,
    ONE,
    TWO,
    THREE,
    /** No whole number of bars: something was misread, or it is a pickup. */
    OTHER
  }

  static final Fill UNKNOWN = new Fill(Bars.UNKNOWN, 0);

  /**
   * Sums up.
   *
   * @param filled what was read, in bars
   * @param sure whether every note and rest has a value; otherwise no sum is exact
   */
  static Fill of(double filled, boolean sure) {
    double octaves = Math.log(Math.max(SET.least(), filled)) / Math.log(2);
    double within = Math.max(-SET.mostOctaves(), Math.min(SET.mostOctaves(), octaves));
    for (int bars = 1; bars <= Bars.THREE.ordinal() && sure; bars++) {
      if (Math.abs(filled - bars) < SET.exact()) {
        return new Fill(Bars.values()[bars], within);
      }
    }
    return new Fill(Bars.OTHER, within);
  }

  /** Tells whether anything was concluded from the beats. */
  public boolean known() {
    return bars != Bars.UNKNOWN;
  }
}
