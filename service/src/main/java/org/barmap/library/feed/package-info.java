/**
 * What other programs follow a book by: its editions, which never change once they are there, and
 * the web hooks that are told of what happens to it.
 *
 * <p>What is to be told is written down in the transaction of the step that it tells of, so a kill
 * loses none of it; it may be sent twice then, with the same id.
 */
@NullMarked
package org.barmap.library.feed;

import org.jspecify.annotations.NullMarked;
