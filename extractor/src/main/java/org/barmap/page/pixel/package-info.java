/**
 * Pictures in native memory: scopes that free them, maps between pixels and warps, and the steps of
 * the work with their processor time. Uses none of its neighbours.
 *
 * <p>Easy to get wrong:
 *
 * <ul>
 *   <li>OpenCV's {@code Mat} and ONNX sessions are native memory: close what you open; a test
 *       counts. Malloc keeps freed memory for each thread unless {@code MALLOC_ARENA_MAX} says
 *       otherwise, as {@code barmap} does: 120 pages peak at 0.64 GB instead of 1.1.
 *   <li>A page is read by all processors at once: {@link org.barmap.page.pixel.Spread} hands tasks
 *       out one by one, each network run takes one thread, so what they call shares no state.
 *       Parallel streams part long tasks badly.
 *   <li>Rounding one pixel otherwise changes readings of a network in 8 bits: make things quicker
 *       without changing values, then the corpus stays equal. Loops over pixels in Java are six
 *       times as fast when every array in them is read at the same index ({@code staff.Shift}); so
 *       is OpenCV's averaging when it shrinks by a whole number ({@link
 *       org.barmap.page.pixel.Shrunk}).
 * </ul>
 */
@API(status = API.Status.INTERNAL)
@NullMarked
package org.barmap.page.pixel;

import org.apiguardian.api.API;
import org.jspecify.annotations.NullMarked;
