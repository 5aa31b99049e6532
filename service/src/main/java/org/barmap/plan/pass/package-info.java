/**
 * What holds in one pass only: bars left out in it, and bars in which the player plays or rests.
 * Read from the print and from changes, laid over the order of play.
 */
@NullMarked
package org.barmap.plan.pass;

import org.jspecify.annotations.NullMarked;
