/**
 * What is done with the data folder as a whole: which files in it are ours, setting aside what
 * nothing names, closing it to others, what is kept where.
 *
 * <p>Easy to get wrong: a file counts as ours only by a name that nobody gives by chance, in a
 * folder of a book, and never through a link ({@link org.barmap.library.keep.OurFiles}); nothing
 * here deletes at a start.
 */
@NullMarked
package org.barmap.library.keep;

import org.jspecify.annotations.NullMarked;
