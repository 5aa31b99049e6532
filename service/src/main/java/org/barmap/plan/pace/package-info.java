/**
 * How pieces are counted and how fast they go: beats as the director shows them, tempo where it is
 * known, keys; lengths in bars, beats and seconds.
 */
@NullMarked
package org.barmap.plan.pace;

import org.jspecify.annotations.NullMarked;
