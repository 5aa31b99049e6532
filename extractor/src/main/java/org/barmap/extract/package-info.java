/**
 * From page files to a bar map: calls page, staff, sign and reckon in that order, one page at a
 * time, and shows what was read.
 *
 * <p>Start at {@link org.barmap.extract.Extractor}.
 */
@NullMarked
package org.barmap.extract;

import org.jspecify.annotations.NullMarked;
