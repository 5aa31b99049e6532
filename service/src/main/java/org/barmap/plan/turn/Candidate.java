package org.barmap.plan.turn;

/**
 * One way to get over one turn, with the place it takes in the line.
 *
 * @param gap index of the gap the page is turned in; -1 when it is turned while playing
 * @param from where that gap begins, in quarters
 * @param to where it ends
 * @param load how many turns' time it takes
 * @param base cost without that of a gap that is too short
 * @param advice the same for the player
 */
record Candidate(int gap, double from, double to, double load, double base, Advice advice) {}
