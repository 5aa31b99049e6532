package org.barmap.staff;

import org.barmap.page.pixel.Gray;

/**
 * Everything the staff stage decides by a threshold.
 *
 * <p>Lengths are in staff spaces, shares from 0 to 1 and gray levels from 0, black, to 255, white,
 * unless a component says otherwise. Where no other reason stands beside a value it was tuned on
 * the pages of the corpus by looking at the staves lost and made up; none of those searches was
 * kept as figures.
 *
 * @param trace how staves are found and followed along the page
 * @param curve how a staff is drawn along its track
 * @param check what is a staff and what only looks like one
 * @param joins which staves belong together
 * @param turned when a page stands on its head
 * @param cut how strips are cut
 */
record StaffSettings(
    TraceSettings trace,
    CurveSettings curve,
    CheckSettings check,
    Joins joins,
    Turned turned,
    Cut cut) {

  /** The settings in use. */
  static final StaffSettings STANDARD = standard();

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

  private static StaffSettings standard() {
    return new StaffSettings(
        TraceSettings.standard(),
        CurveSettings.standard(),
        CheckSettings.standard(),
        standardJoins(),
        standardTurned(),
        new Cut(/* mostSkipped= */ 1.25, /* shrink= */ 0.85, /* mostShrink= */ 4));
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
