/**
 * A whole library read at once: found, read page by page in the child process, kept as it goes.
 * Everything that is written is written whole, so a kill costs the page under way and no more.
 */
@NullMarked
package org.barmap.work.books;

import org.jspecify.annotations.NullMarked;
