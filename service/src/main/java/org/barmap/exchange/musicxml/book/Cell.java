package org.barmap.exchange.musicxml.book;

import org.barmap.exchange.musicxml.ScoreMeasure;
import org.barmap.map.SecondReading.Measure;

/**
 * One measure with all that is known of it.
 *
 * @param read what it says, with what a score writes once for all its parts
 * @param extra what a book takes beyond that
 * @param number its bar number
 * @param measures how many measures of the file it is made of, mostly one
 */
record Cell(ScoreMeasure read, Extra extra, Numbering.Name number, int measures) {

  Measure said() {
    return read.said();
  }

  /** Tells whether the part rests in it throughout. */
  boolean rests() {
    return extra.repeats() == 0 && (said().rest() || extra.idle());
  }
}
