/**
 * Files to upright page images: PNG, JPEG, TIFF and PDF, read one page at a time.
 *
 * <p>Start at {@link org.barmap.page.file.PageFiles#list} and {@link org.barmap.page.PageSource}.
 * Every page comes as a {@link org.barmap.page.PageImage}: a gray working image with even light,
 * staff lines level, of a size that suits reading, with the map back to the pixels of the given
 * file. What can't be read comes as a {@link org.barmap.map.Finding}, never as an exception.
 *
 * <p>Its rooms as the data goes: {@code pixel} holds pictures and maps between them, {@code file}
 * opens files, {@code level} looks at a photograph; the root makes pages with them.
 *
 * <p>Coordinates are continuous: the pixel in column 0 reaches from x = 0 to x = 1, its centre is
 * at 0.5.
 *
 * <p>Outlines that leave this package are in pixels of the given file: use {@code toFile}.
 */
@API(status = API.Status.INTERNAL)
@NullMarked
package org.barmap.page;

import org.apiguardian.api.API;
import org.jspecify.annotations.NullMarked;
