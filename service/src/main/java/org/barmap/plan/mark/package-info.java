/**
 * The pencil list: the fewest marks in the book that carry the plan, each to be erased before the
 * book goes back.
 *
 * <p>Fewest means: no mark inside what is cut or not played, cuts that touch get one pair of
 * brackets, two reasons for the same mark at the same bar are one mark, a turn is marked once for
 * all its passes (for the worst of them), a tempo or beat that is in force anyway gets none.
 */
@NullMarked
package org.barmap.plan.mark;

import org.jspecify.annotations.NullMarked;
