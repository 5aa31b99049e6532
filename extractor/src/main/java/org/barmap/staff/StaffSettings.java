package org.barmap.staff;

import java.util.List;
import org.barmap.page.pixel.Gray;

/**
 * Everything the staff stage decides by a threshold.
 *
 * <p>Lengths are in staff spaces, shares from 0 to 1 and gray levels from 0, black, to 255, white,
 * unless a component says otherwise. Where no other reason stands beside a value it was tuned on
 * the pages of the corpus by looking at the staves lost and made up; none of those searches was
 * kept as figures.
 *
 * @param lines how much a height looks like a line
 * @param middles how much a place looks like the middle of a staff
 * @param tracks how staves are followed along the page
 * @param straight how tracks that strayed are brought back
 * @param fit how a curve is fitted to a track
 * @param ends where the lines begin and end
 * @param checks what is a staff
 * @param faint what is one though its lines are nearly gone
 * @param joins which staves belong together
 * @param turned when a page stands on its head
 * @param cut how strips are cut
 * @param drawn which staff is meant by a frame
 */
record StaffSettings(
    Lines lines,
    Middles middles,
    Following tracks,
    Straight straight,
    Fit fit,
    Ends ends,
    Checks checks,
    Faint faint,
    Joins joins,
    Turned turned,
    Cut cut,
    Drawn drawn) {

  /** The settings in use. */
  static final StaffSettings STANDARD = standard();

  /**
   * How much a height of the page looks like a thin level line.
   *
   * @param space staff space of the copy searched at most, pixels; enough to place a line to a
   *     fiftieth of a space
   * @param reach how far above and below a line its paper is looked for
   * @param paper the gray that paper has after its light was evened
   * @param leastDarker what hides a line is darker than paper by at least this, gray levels
   * @param darker and by this share of the page's usual strength of a line
   * @param typical share of the blocks whose strongest line is weaker than the usual one
   * @param weakestLine the usual strength is taken for no less than this, gray levels
   * @param strongestLine and for no more than this
   * @param full this share of the usual strength counts as a whole line
   * @param blur of the heights, pixels: less than a line is thick
   * @param least usual strength below which the page holds no staves, gray levels
   * @param leastHeight of a page that can hold a staff
   */
  record Lines(
      double space,
      double reach,
      int paper,
      double leastDarker,
      double darker,
      double typical,
      double weakestLine,
      double strongestLine,
      double full,
      double blur,
      double least,
      double leastHeight) {}

  /**
   * How much a place looks like the middle of five lines.
   *
   * @param spaces the staff spaces tried, as shares of the usual one: from small staves to large
   * @param line what a line counts: five make a whole
   * @param between what is seen half way between lines counts, four times
   */
  record Middles(List<Double> spaces, float line, float between) {}

  /**
   * How staves are followed along the page, in blocks of a few columns.
   *
   * @param fade what is left of the evidence a block further on
   * @param steepest pixels up or down from one block to the next at most
   * @param bend what such a step costs, times its square
   * @param start evidence that starts a track
   * @param seed a place with this share of it is looked at
   * @param every blocks between two columns of such places
   * @param alive evidence, faded, that keeps a track going
   * @param back evidence that takes up a track again after a long gap
   * @param first evidence a walk begins with
   * @param keep share of the evidence so far in the running mean of a walk
   * @param fresh share of a block's own, which makes one with it
   * @param patience how far without evidence a walk goes on
   * @param longGap share of the patience, as its divisor, after which a gap is long
   * @param apart two staves lie at least this far from each other
   */
  record Following(
      float fade,
      int steepest,
      float bend,
      float start,
      float seed,
      int every,
      float alive,
      float back,
      float first,
      float keep,
      float fresh,
      double patience,
      int longGap,
      double apart) {}

  /**
   * How tracks that strayed are brought back.
   *
   * @param step pixels between two heights tried
   * @param move what a move by one staff space costs, in lines found bare in one block
   * @param hidden what a line neither seen nor bare costs
   * @param reach how far from the track the staff may lie
   * @param tolerance how far from its place a line still counts as seen
   * @param line value from which on a height is a line
   * @param beyond what a height out of reach costs, more than five missing lines
   */
  record Straight(
      int step,
      double move,
      float hidden,
      double reach,
      double tolerance,
      float line,
      float beyond) {}

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

  /**
   * What is a staff.
   *
   * @param leastLength of a staff
   * @param leastMean share of it in which a line is seen, over five lines
   * @param leastWeakest the same of its weakest line, where it could be seen
   * @param leastBoth sum of the two
   * @param mostUneven near 0.03 for a staff, near 0.12 for chance
   * @param mostBetween seen half way between lines, as a share of the mean
   * @param sixth share in which a sixth line is seen that is none yet
   * @param sixthShare or this share of the weakest line: dense ledger lines are no sixth line
   * @param small a staff below this share of the usual space is a cue or an ossia
   * @param large and above this share is none
   */
  record Checks(
      double leastLength,
      double leastMean,
      double leastWeakest,
      double leastBoth,
      double mostUneven,
      double mostBetween,
      double sixth,
      double sixthShare,
      double small,
      double large) {}

  /**
   * What is a staff, or goes on as one, though its lines are nearly gone.
   *
   * @param sureStaves so many make margins
   * @param sharp how far from a margin staves begin
   * @param leastLength of a faint staff
   * @param leastMean as in {@link Checks}
   * @param leastWeakest as in {@link Checks}
   * @param mostUneven as in {@link Checks}
   * @param mostBetween as in {@link Checks}
   * @param sameSpace how far its space is from the usual one, as a share of it
   * @param apart it lies at least this far from a sure one
   * @param dashed share of the columns in which a line is seen in a dashed end
   * @param dashedLines so many lines of such an end are seen in it
   * @param dashedBetween seen half way between lines at most, as a share of the lines
   * @param window length over which a line in dashes is looked for
   * @param darker than the paper beside it by this is a line, gray levels
   * @param near how far from its place a line is looked for
   * @param paperAt how far from a line its paper is looked at
   * @param ink darker is a stroke; gray level
   * @param stroke of the nine places across a staff, those that are dark in a stroke
   */
  record Faint(
      int sureStaves,
      double sharp,
      double leastLength,
      double leastMean,
      double leastWeakest,
      double mostUneven,
      double mostBetween,
      double sameSpace,
      double apart,
      double dashed,
      int dashedLines,
      double dashedBetween,
      double window,
      int darker,
      double near,
      double paperAt,
      int ink,
      int stroke) {}

  /**
   * Which staves belong together.
   *
   * @param ink a stroke is darker; gray level
   * @param sideways how far a gutter may swerve from the barlines' lean, per height looked at
   * @param margin brace and brackets take less than this left of a system's first line
   * @param apart of two barlines at least
   * @param outer how far from the middle line the room between staves begins
   * @param across how far from the middle line a stroke across a staff is looked for: just short of
   *     the outer lines
   * @param over how far from the middle line a barline has ended; a gutter and an edge run on
   * @param barredRoom between two staves that barlines join, at most
   * @param joinedRoom between two staves that a line at their left joins, at most
   * @param ends how far their left ends differ at most
   * @param strokeBefore how far left of the ends that line is looked for
   * @param strokeBehind how far right of them
   * @param barDark share of a barline that is dark
   * @param strokeDark share of a line at the left that is dark
   * @param probes a stroke is first looked at in this many parts
   * @param paperFrom how far left of a system's first line its paper begins
   * @param paper share of the height that is paper there
   */
  record Joins(
      int ink,
      double sideways,
      double margin,
      double apart,
      double outer,
      double across,
      double over,
      double barredRoom,
      double joinedRoom,
      double ends,
      double strokeBefore,
      double strokeBehind,
      double barDark,
      double strokeDark,
      int probes,
      double paperFrom,
      double paper) {}

  /**
   * When a page stands on its head.
   *
   * @param from where the ink of a clef begins, from the left end
   * @param to where it ends
   * @param clef share of ink at the ends that are clefs
   * @param more times as much ink as at the beginnings
   * @param none so much ink at the beginnings are clefs, whatever the ends look like over a gutter
   * @param quarter the staff judged by is the one at this part of all
   * @param step between two places looked at
   * @param first place looked at below a line
   * @param last one, and a little for rounding
   * @param ink darker is ink; gray level
   */
  record Turned(
      double from,
      double to,
      double clef,
      double more,
      double none,
      int quarter,
      double step,
      double first,
      double last,
      int ink) {}

  /**
   * How strips are cut.
   *
   * @param mostSkipped pixels of the page between two of the strip from which on they are averaged
   * @param shrink share of that which is averaged: just above the strip's own scale keeps thin
   *     lines from breaking
   * @param mostShrink the most that is averaged
   */
  record Cut(double mostSkipped, double shrink, double mostShrink) {}

  /**
   * Which staff a person means who draws a frame over it. Neither value was searched: with them 33
   * frames over lines of the demo book, up to a staff space off at every corner, find their staff.
   *
   * @param along share of the shorter of both, frame and staff, that they have in common along the
   *     page
   * @param leastMean share of its length in which a line is seen, over its five lines: somebody
   *     says that a staff is here, so less is asked than of one nobody pointed at
   */
  record Drawn(double along, double leastMean) {}

  private static StaffSettings standard() {
    return new StaffSettings(
        standardLines(),
        standardMiddles(),
        standardTracks(),
        standardStraight(),
        standardFit(),
        standardEnds(),
        standardChecks(),
        standardFaint(),
        standardJoins(),
        standardTurned(),
        new Cut(/* mostSkipped= */ 1.25, /* shrink= */ 0.85, /* mostShrink= */ 4),
        new Drawn(/* along= */ 0.5, /* leastMean= */ 0.35));
  }

  private static Lines standardLines() {
    return new Lines(
        /* space= */ 16.5,
        /* reach= */ 0.4,
        /* paper= */ 250,
        /* leastDarker= */ 8,
        /* darker= */ 0.4,
        /* typical= */ 0.75,
        /* weakestLine= */ 8,
        /* strongestLine= */ 80,
        /* full= */ 0.7,
        /* blur= */ 0.7,
        /* least= */ 6,
        /* leastHeight= */ 5);
  }

  private static Middles standardMiddles() {
    return new Middles(
        /* spaces= */ List.of(0.8, 0.86, 0.92, 0.97, 1.02, 1.08, 1.15, 1.23),
        /* line= */ 0.2f,
        /* between= */ -0.1f);
  }

  private static Following standardTracks() {
    return new Following(
        /* fade= */ 0.96f,
        /* steepest= */ 3,
        /* bend= */ 0.02f,
        /* start= */ 0.30f,
        /* seed= */ 0.6f,
        /* every= */ 4,
        /* alive= */ 0.22f,
        /* back= */ 0.5f,
        /* first= */ 0.5f,
        /* keep= */ 0.8f,
        /* fresh= */ 0.2f,
        /* patience= */ 12,
        /* longGap= */ 4,
        /* apart= */ 4.2);
  }

  private static Straight standardStraight() {
    return new Straight(
        /* step= */ 2,
        /* move= */ 12,
        /* hidden= */ 0.2f,
        /* reach= */ 2.4,
        /* tolerance= */ 0.16,
        /* line= */ 0.35f,
        /* beyond= */ 6);
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

  private static Checks standardChecks() {
    return new Checks(
        /* leastLength= */ 7,
        /* leastMean= */ 0.5,
        /* leastWeakest= */ 0.45,
        /* leastBoth= */ 1.0,
        /* mostUneven= */ 0.085,
        /* mostBetween= */ 0.6,
        /* sixth= */ 0.55,
        /* sixthShare= */ 0.9,
        /* small= */ 0.8,
        /* large= */ 1.5);
  }

  private static Faint standardFaint() {
    return new Faint(
        /* sureStaves= */ 3,
        /* sharp= */ 1.5,
        /* leastLength= */ 25,
        /* leastMean= */ 0.45,
        /* leastWeakest= */ 0.25,
        /* mostUneven= */ 0.06,
        /* mostBetween= */ 0.3,
        /* sameSpace= */ 0.05,
        /* apart= */ 5,
        /* dashed= */ 0.06,
        /* dashedLines= */ 3,
        /* dashedBetween= */ 0.7,
        /* window= */ 3,
        /* darker= */ 40,
        /* near= */ 0.15,
        /* paperAt= */ 0.4,
        /* ink= */ Gray.STROKE,
        /* stroke= */ 8);
  }

  private static Joins standardJoins() {
    return new Joins(
        /* ink= */ Gray.STROKE,
        /* sideways= */ 0.3,
        /* margin= */ 3.5,
        /* apart= */ 4,
        /* outer= */ 2.2,
        /* across= */ 1.95,
        /* over= */ 2.5,
        /* barredRoom= */ 16,
        /* joinedRoom= */ 18,
        /* ends= */ 2.5,
        /* strokeBefore= */ 1.2,
        /* strokeBehind= */ 1.0,
        /* barDark= */ 0.95,
        /* strokeDark= */ 0.93,
        /* probes= */ 4,
        /* paperFrom= */ 0.6,
        /* paper= */ 0.85);
  }

  private static Turned standardTurned() {
    return new Turned(
        /* from= */ 0.7,
        /* to= */ 3.7,
        /* clef= */ 0.1,
        /* more= */ 1.5,
        /* none= */ 0.14,
        /* quarter= */ 4,
        /* step= */ 0.1,
        /* first= */ 0.3,
        /* last= */ 0.71,
        /* ink= */ Gray.INK);
  }
}
