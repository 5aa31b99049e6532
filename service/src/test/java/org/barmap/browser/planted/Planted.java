package org.barmap.browser.planted;

/**
 * One error that a reading of the demo book could have made.
 *
 * @param kind what went wrong
 * @param page where
 * @param bar id of the bar in the truth at which it shows
 * @param wrong what stands there instead: a count, a meter, a mark, a number; empty where the kind
 *     says it all
 */
public record Planted(Kind kind, int page, String bar, String wrong) {

  /** What goes wrong in reading. */
  public enum Kind {
    /** The line between this bar and the next was not seen. */
    MISSING_BARLINE,
    /** A stem was taken for a barline. */
    EXTRA_BARLINE,
    /** The numeral over a rest was misread. */
    REST_COUNT,
    /** A time signature was misread. */
    METER,
    /** A rehearsal mark was not seen. */
    NO_MARK,
    /** A rehearsal mark was misread. */
    OTHER_MARK,
    /** The dots of a repeat at the end of a bar were not seen. */
    LOST_REPEAT_END,
    /** The dots of a repeat at the start of a bar were not seen. */
    LOST_REPEAT_START,
    /** The number of a musical number was misread. */
    OTHER_NUMBER,
    /** A bar's rest was taken for music. */
    REST_AS_MUSIC,
    /** A bar of music was taken for a rest. */
    MUSIC_AS_REST
  }
}
