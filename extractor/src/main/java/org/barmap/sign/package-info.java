/**
 * What stands in a straightened staff: barlines, rests, meters, marks, numerals and words, each
 * with how sure the reading is and what else it could be.
 *
 * <p>In come systems of a page image, out comes a {@code ReadPage}. Its rooms as the data goes:
 * {@code kind} has the records, {@code strip} the images, {@code net} finds and reads, {@code rule}
 * decides. It may use all four.
 *
 * <p>Probabilities, not decisions, go on to the reckoning: a reader that thresholds early takes
 * evidence away from the sum over the book.
 */
@API(status = API.Status.INTERNAL)
@NullMarked
package org.barmap.sign;

import org.apiguardian.api.API;
import org.jspecify.annotations.NullMarked;
