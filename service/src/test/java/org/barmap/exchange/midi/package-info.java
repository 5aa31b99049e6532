/** Tests of the click as MIDI. */
@NullMarked
package org.barmap.exchange.midi;

import org.jspecify.annotations.NullMarked;
