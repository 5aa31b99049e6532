/**
 * What the sign stage decides by thresholds: {@link org.barmap.sign.set.SignSettings} names a
 * record for each room's work, each with the values in use. Uses none of its neighbours.
 */
@API(status = API.Status.INTERNAL)
@NullMarked
package org.barmap.sign.set;

import org.apiguardian.api.API;
import org.jspecify.annotations.NullMarked;
