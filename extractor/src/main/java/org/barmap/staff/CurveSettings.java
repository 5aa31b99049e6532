package org.barmap.staff;

import org.barmap.page.pixel.Gray;

/**
 * How a staff is drawn along its track. Units as {@link StaffSettings} says.
 *
 * @param fit how a curve is fitted to a track
 * @param ends where the lines begin and end
 */
record CurveSettings(Fit fit, Ends ends) {

  /**
   * How a curve with its own staff space is fitted to a track.
   *
   * @param leastLength of a track
   * @param near how far from its place a line is looked for when its share is counted
   * @param nearStep in steps of this
   * @param line value from which on a height is a line
   * @param fewVisible a share of blocks below which nothing is said against a line
   * @param uneven how far from its place a line is looked for when its unevenness is measured: a
   *     quarter of a space and a little
   * @param longTrack blocks; a longer one tells its space by every third block
   * @param sparse which blocks those are
   * @param smallest space tried, as a share of the usual one
   * @param largest space tried
   * @param spaceStep between two spaces tried
   * @param firstReach how far from its place a line is looked for in the first round
   * @param reach and in the later ones
   * @param middleBell width over which middles are smoothed
   * @param middleTolerance a middle further off weighs little
   * @param spaceBell width over which spaces are smoothed
   * @param spaceTolerance a space further off weighs little
   * @param peak value below which a line is not measured
   * @param flat a bend below which no peak is placed between pixels; keeps from dividing by nothing
   * @param leastWeight of the lines of a block that is measured
   * @param leastSpread determinant from which on a block tells its space
   * @param leastLines sum of squared line numbers from which on it does
   * @param middleOnly weight of a block that tells its middle only
   * @param bellReach widths of the bell that are summed
   * @param coarse parts of the bell between two points computed; so smooth a curve needs no more
   * @param passes of smoothing, outliers weighed down in the later ones
   * @param pull towards the value so far, per squared width: keeps thin evidence from swinging
   * @param tiny keeps from dividing by nothing
   */
  record Fit(
      double leastLength,
      double near,
      double nearStep,
      double line,
      double fewVisible,
      double uneven,
      int longTrack,
      int sparse,
      double smallest,
      double largest,
      double spaceStep,
      double firstReach,
      double reach,
      double middleBell,
      double middleTolerance,
      double spaceBell,
      double spaceTolerance,
      double peak,
      double flat,
      double leastWeight,
      double leastSpread,
      double leastLines,
      double middleOnly,
      double bellReach,
      double coarse,
      int passes,
      double pull,
      double tiny) {}

  /**
   * Where the lines of a staff begin and end.
   *
   * @param beyond how far a staff may go on beyond its track
   * @param gap a longer one in the lines ends the staff
   * @param run lines must go on for this long to count; digits beside a staff don't
   * @param leastDarker a line is darker than the paper beside it by at least this, gray levels
   * @param darker and by this share of the usual strength of a line
   * @param inside how far inside its track the search for an end begins
   * @param further how much further inside each time nothing is found
   * @param lines seen at once that make a staff, and bare places that make none
   * @param barReach a barline begins no further than this from the last lines
   * @param barGap between the strokes of a barline
   * @param near how far from its place a line is looked for
   * @param paperAt how far from a line its paper is looked at
   * @param paper its gray
   * @param barHalf how far up and down from the middle a barline is looked for
   * @param barStep in steps of this
   * @param barInk a barline is darker; gray level
   * @param barDark of the fifteen places, those that are dark in a barline
   * @param slope length over which the slope at an end is taken
   */
  record Ends(
      double beyond,
      double gap,
      double run,
      double leastDarker,
      double darker,
      double inside,
      double further,
      int lines,
      double barReach,
      double barGap,
      double near,
      double paperAt,
      int paper,
      double barHalf,
      double barStep,
      int barInk,
      int barDark,
      double slope) {}

  static CurveSettings standard() {
    return new CurveSettings(standardFit(), standardEnds());
  }

  private static Fit standardFit() {
    return new Fit(
        /* leastLength= */ 4,
        /* near= */ 0.12,
        /* nearStep= */ 0.06,
        /* line= */ 0.35,
        /* fewVisible= */ 0.05,
        /* uneven= */ 0.26,
        /* longTrack= */ 90,
        /* sparse= */ 3,
        /* smallest= */ 0.72,
        /* largest= */ 1.32,
        /* spaceStep= */ 0.02,
        /* firstReach= */ 0.4,
        /* reach= */ 0.28,
        /* middleBell= */ 2.2,
        /* middleTolerance= */ 0.25,
        /* spaceBell= */ 12,
        /* spaceTolerance= */ 0.1,
        /* peak= */ 0.3,
        /* flat= */ -1e-6,
        /* leastWeight= */ 0.5,
        /* leastSpread= */ 1.5,
        /* leastLines= */ 2,
        /* middleOnly= */ 0.5,
        /* bellReach= */ 2.5,
        /* coarse= */ 6,
        /* passes= */ 3,
        /* pull= */ 0.02,
        /* tiny= */ 1e-9);
  }

  private static Ends standardEnds() {
    return new Ends(
        /* beyond= */ 14,
        /* gap= */ 1.2,
        /* run= */ 0.4,
        /* leastDarker= */ 6,
        /* darker= */ 0.3,
        /* inside= */ 3,
        /* further= */ 5,
        /* lines= */ 3,
        /* barReach= */ 0.9,
        /* barGap= */ 0.4,
        /* near= */ 0.17,
        /* paperAt= */ 0.45,
        /* paper= */ 250,
        /* barHalf= */ 1.75,
        /* barStep= */ 0.25,
        /* barInk= */ Gray.STROKE,
        /* barDark= */ 13,
        /* slope= */ 4);
  }
}
