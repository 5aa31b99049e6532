/**
 * Where the files of books are kept for good: pictures of pages, uploads, scores. The folder of a
 * book is always where they are worked on; with a store elsewhere it is a copy that may go. Easy to
 * get wrong: a file is named in the database only after {@code keep} has returned.
 */
@NullMarked
package org.barmap.library.picture;

import org.jspecify.annotations.NullMarked;
