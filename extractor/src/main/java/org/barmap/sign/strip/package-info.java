/**
 * Straightened staves as images: in comes a staff of a page, out come gray values at fixed scales
 * and the ink in them. Uses {@code kind}.
 */
@API(status = API.Status.INTERNAL)
@NullMarked
package org.barmap.sign.strip;

import org.apiguardian.api.API;
import org.jspecify.annotations.NullMarked;
