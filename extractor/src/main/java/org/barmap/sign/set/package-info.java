/**
 * What the sign stage decides by thresholds: {@link org.barmap.sign.set.SignSettings} names a
 * record for each room's work, each with the values in use. Uses none of its neighbours.
 */
@NullMarked
package org.barmap.sign.set;

import org.jspecify.annotations.NullMarked;
