/**
 * The bar map, format {@code barmap/1}: what is on the pages of one book, as records.
 *
 * <p>Everything else in barmap reads or writes these records. Coordinates are pixels of the page
 * image as given (EXIF orientation applied), origin top left, x to the right, y down.
 *
 * <p>The records themselves; {@code rule} has what follows from them, {@code json} reads and writes
 * them. They use neither.
 */
@NullMarked
package org.barmap.map;

import org.jspecify.annotations.NullMarked;
