/**
 * From page files to a bar map: calls page, staff, sign and reckon in that order, one page at a
 * time, and shows what was read.
 *
 * <p>Start at {@link org.barmap.extract.Extractor}.
 */
@API(status = API.Status.MAINTAINED)
@NullMarked
package org.barmap.extract;

import org.apiguardian.api.API;
import org.jspecify.annotations.NullMarked;
