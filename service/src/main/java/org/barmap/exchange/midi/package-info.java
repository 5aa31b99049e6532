/** The click of a plan as a standard MIDI file. */
@NullMarked
package org.barmap.exchange.midi;

import org.jspecify.annotations.NullMarked;
