/**
 * Page turns: where they fall, how long the player is silent there, and what to do where that is
 * too short.
 *
 * <p>A page is turned after a right-hand page (MOLA guidelines), where {@code page} says it lies; a
 * usable turn is a gap without notes (LilyPond notation manual, page-turn breaking). How long a
 * turn takes and how many bars a player trusts to memory are the player's settings; the figures
 * they start with are this project's assumptions.
 *
 * <h2>Cost model</h2>
 *
 * <p>All turns of a number, and of numbers that follow without a break, are chosen together so that
 * the sum of costs is least. Every turn in every pass costs by itself:
 *
 * <ul>
 *   <li>in a gap long enough for it: 0; in one long enough for a quick turn only: 3 more;
 *   <li>each bar with notes played from memory, because the page is turned earlier or later: 2;
 *   <li>bars written out at the foot or head of a page: 6, and half a point a bar;
 *   <li>a fold-out of the next systems: 12, and 2 a system;
 *   <li>no gap in reach, notes are left out: 30.
 * </ul>
 *
 * <p>Pages are turned in their order, and two turns in one gap need the time of two and half as
 * much again: each has a part of the gap for its own. A turn over several openings takes half as
 * long again for each further one. Where no tempo is known a gap of a whole note counts as quick
 * (the least gap of LilyPond's page breaking), one of two whole notes as time.
 */
@NullMarked
package org.barmap.plan.turn;

import org.jspecify.annotations.NullMarked;
