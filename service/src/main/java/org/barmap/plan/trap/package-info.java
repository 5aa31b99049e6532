/**
 * What trips a player who sits in for one night: what is played otherwise than the print says, what
 * the print leaves open, entrances after long rests, turns without time, whom to watch. It is drawn
 * from what the other rooms have decided, so that nothing is decided twice.
 */
@NullMarked
package org.barmap.plan.trap;

import org.jspecify.annotations.NullMarked;
