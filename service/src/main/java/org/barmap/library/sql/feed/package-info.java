/**
 * Editions and web hooks in a database. What is to be told is written in the transaction of the
 * step that it tells of: whoever makes a step calls {@link org.barmap.library.sql.feed.SqlFeed} in
 * it.
 *
 * <p>Easy to get wrong: the row of an edition is inserted and read, never updated.
 */
@NullMarked
package org.barmap.library.sql.feed;

import org.jspecify.annotations.NullMarked;
