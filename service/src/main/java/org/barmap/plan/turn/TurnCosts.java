package org.barmap.plan.turn;

/**
 * How ways to get over a turn are weighed against each other. Costs are points: only which sum is
 * smaller counts. All are assumptions, ordered as players rank the ways (common practice); none is
 * measured.
 *
 * @param quick a turn in a gap long enough for a quick turn only
 * @param barFromMemory each bar played from memory
 * @param writeOut a slip at the foot of a page
 * @param writeOutBar each bar on it
 * @param foldOut a fold-out
 * @param foldOutSystem each system on it
 * @param leaveOut notes left out; dearer than anything else a player can do alone
 * @param looseCopy a copy of one page beside the book: others are asked first, so it is never
 *     chosen unasked
 * @param mostWritten bars; more aren't written out at the foot of a page
 * @param mostSystems systems; a fold-out of more is a page of its own
 * @param quickQuarters quarters that are worth trying a turn in where no tempo is known
 * @param sharing turns that share a rest take so many times as long: the eyes find the place twice
 * @param moreLeaf what each further leaf turned at once adds, in turns
 */
public record TurnCosts(
    double quick,
    double barFromMemory,
    double writeOut,
    double writeOutBar,
    double foldOut,
    double foldOutSystem,
    double leaveOut,
    double looseCopy,
    int mostWritten,
    int mostSystems,
    double quickQuarters,
    double sharing,
    double moreLeaf) {

  /** The costs every plan is made with. */
  public static final TurnCosts USUAL =
      new TurnCosts(3, 2, 6, 0.5, 12, 2, 30, 31, 12, 5, 4, 1.5, 0.5);
}
