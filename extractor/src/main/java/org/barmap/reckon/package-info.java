/**
 * Bar arithmetic: from the signs of a book to numbered bars, with every contradiction settled or
 * shown.
 *
 * <p><b>The model.</b> The book is walked once in reading order. The state is the number of the bar
 * that is open. Every system is cut into cells by whatever may be a barline; in each cell, in this
 * order:
 *
 * <ul>
 *   <li>printed bar numbers at its beginning are compared with the state ({@code Observe}): a
 *       number the print may say costs the logarithm of its probability, any other one the
 *       logarithm of a misread print spread over all numbers;
 *   <li>a rest adds its count less one ({@code Move}): the readings of its numeral, or any count at
 *       the price of a misread numeral;
 *   <li>barlines missed inside the cell add one or two, likelier in a wide cell;
 *   <li>the barline at its end adds one if it is one; refusing it joins two cells.
 * </ul>
 *
 * <p>Between systems counting may start again ({@code Restart}): nearly surely under the heading of
 * a musical number, now and then after a final barline, hardly ever elsewhere; or pages may be
 * missing. A bar printed "24A" counts as part of 24. Bars are numbered straight through first and
 * second endings, as engravers print them. Rehearsal marks are a second sequence; when they are
 * numbers, both readings are solved (marks that count bars, marks that count themselves) and the
 * likelier one is kept.
 *
 * <p>{@code Solver} finds the path of least total cost exactly, and from sums over all paths the
 * probability of each choice on it. What the path had to bend is a finding, ordered by how many
 * bars an error there would shift. The costs are in {@code Costs}.
 */
@NullMarked
package org.barmap.reckon;

import org.jspecify.annotations.NullMarked;
