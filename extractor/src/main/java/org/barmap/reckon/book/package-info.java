/**
 * The model of one book: in come its cut systems, out comes the settled path with the bars it
 * reads. Uses {@code cells}, {@code cost} and {@code solve}.
 */
@NullMarked
package org.barmap.reckon.book;

import org.jspecify.annotations.NullMarked;
