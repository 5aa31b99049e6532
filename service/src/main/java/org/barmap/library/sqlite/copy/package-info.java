/**
 * A store as a file of its own, which nobody works on: what a backup holds and how rows get into it
 * and out again, from and into either database.
 *
 * <p>Easy to get wrong: a file that comes from elsewhere is believed in nothing. Its tables have to
 * be exactly those that the migrations make, and the names in it lead to no place outside a data
 * folder ({@link org.barmap.library.sqlite.copy.StoreCheck}), before anything is done with it. A
 * table that must not be in a backup, or a value that opens something, is named in {@link
 * org.barmap.library.sqlite.copy.Leaving}.
 */
@NullMarked
package org.barmap.library.sqlite.copy;

import org.jspecify.annotations.NullMarked;
