/**
 * The row of books that wait to be read: whoever is free does the next step of the first one, which
 * then goes to the end of the row.
 *
 * <p>Easy to get wrong: a step may be done twice, when somebody who was thought to be gone comes
 * back. So what it stores must be the same the second time, and what is worked out from several
 * pages goes through {@link org.barmap.library.Readings}.
 */
@NullMarked
package org.barmap.library.turn;

import org.jspecify.annotations.NullMarked;
