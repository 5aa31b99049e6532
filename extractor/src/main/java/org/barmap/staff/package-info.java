/**
 * Staves and systems on an upright page, and each staff straightened into a strip of fixed scale.
 *
 * <p>Start at {@link org.barmap.staff.StaffFinder#find}; cut strips with {@link
 * org.barmap.staff.Strip#cut}. Staves are traced along the page, never by sums over its whole
 * width, so that bent and leaning pages read like flat ones.
 */
@API(status = API.Status.INTERNAL)
@NullMarked
package org.barmap.staff;

import org.apiguardian.api.API;
import org.jspecify.annotations.NullMarked;
