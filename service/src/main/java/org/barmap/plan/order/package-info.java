/**
 * The order in which bars sound: from the written form (repeats, endings, jumps) and the show's
 * changes to a list of steps, with their beats and, where a tempo is known, seconds.
 *
 * <p>The form is always taken from the whole number as written; a cut then leaves bars out on the
 * way and takes the signs that stand in them. So a repeat whose closing sign is cut is not taken,
 * and one whose opening sign is cut goes back to the first bar left of it.
 *
 * <p>Repeats are not taken again after a D.C. or D.S. unless the settings say so: there the last
 * ending is played (common practice; published tools disagree).
 */
@NullMarked
package org.barmap.plan.order;

import org.jspecify.annotations.NullMarked;
