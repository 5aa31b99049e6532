/**
 * What the reckoning decides by thresholds, each with its unit and reason: one record for each
 * room, one in it for each step. Uses nothing and is used by all rooms but {@code solve}.
 */
@API(status = API.Status.INTERNAL)
@NullMarked
package org.barmap.reckon.set;

import org.apiguardian.api.API;
import org.jspecify.annotations.NullMarked;
