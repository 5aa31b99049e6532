package org.barmap.staff;

import org.barmap.page.pixel.Gray;

/**
 * What is a staff and what only looks like one. Units as {@link StaffSettings} says.
 *
 * @param checks what is a staff
 * @param faint what is one though its lines are nearly gone
 */
record CheckSettings(Checks checks, Faint faint) {

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

  static CheckSettings standard() {
    return new CheckSettings(standardChecks(), standardFaint());
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
}
