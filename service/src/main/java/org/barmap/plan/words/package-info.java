/**
 * Changes in the words of a director's cut list, a whole list at once.
 *
 * <p>Nothing counts before it is shown: every line comes back either understood, with a sentence
 * that says as what, or asked back, with what may have been meant.
 */
@NullMarked
package org.barmap.plan.words;

import org.jspecify.annotations.NullMarked;
