/**
 * What the reckoning decides by thresholds, each with its unit and reason: one record for each
 * room, one in it for each step. Uses nothing and is used by all rooms but {@code solve}.
 */
@NullMarked
package org.barmap.reckon.set;

import org.jspecify.annotations.NullMarked;
