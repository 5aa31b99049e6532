/**
 * The bar map, format {@code barmap/1}: what is on the pages of one book, as records.
 *
 * <p>Everything else in barmap reads or writes these records. Coordinates are pixels of the page
 * image as given (EXIF orientation applied), origin top left, x to the right, y down.
 *
 * <p>The records themselves; {@code rule} has what follows from them, {@code json} reads and writes
 * them. They use neither.
 *
 * <p>Easy to get wrong:
 *
 * <ul>
 *   <li>A rest of several bars is one entry. {@code number + count} is the next number; never count
 *       entries where bars are meant.
 *   <li>A bar number may occur twice in a musical number, where the print counts the second ending
 *       like the first. The numbers alone say so; ask {@link org.barmap.map.rule.AlikeEndings},
 *       name such a bar with its ending ("24 in the 2nd ending"), and count from bar to bar ({@code
 *       plan.change.Counted} does), not by subtracting numbers.
 *   <li>A repeat start in mid-line is the {@code endBarline} of the bar before; at a line break it
 *       is the {@code startBarline} of the first bar.
 *   <li>A key's {@code printed} is true where it is drawn as a change, or at the first bar of a
 *       number, not where every line repeats it. A key never holds on into the next number, a meter
 *       does. Absent means unknown: nothing is said about it.
 *   <li>{@code segno} and {@code coda} count at the start of their bar, {@code to-coda}, {@code
 *       fine}, {@code da-capo} and {@code dal-segno} at its end.
 *   <li>Free beats ({@code silentStart}, {@code silentEnd}) are counted in the meter's lower
 *       figure, not in the beats a director shows: 3 in 6/8 is one beat in two.
 * </ul>
 */
@API(status = API.Status.MAINTAINED)
@NullMarked
package org.barmap.map;

import org.apiguardian.api.API;
import org.jspecify.annotations.NullMarked;
