/**
 * Sentences about what was said before: "that cut is off", "make that vamp four times", "instead of
 * the cut at B". They are understood where one earlier change can be meant, and asked otherwise.
 */
@NullMarked
package org.barmap.plan.words.earlier;

import org.jspecify.annotations.NullMarked;
