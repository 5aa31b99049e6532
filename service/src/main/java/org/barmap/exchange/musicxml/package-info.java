/**
 * MusicXML 4.0, both ways: the bar map's way out and other readings' way in.
 *
 * <p>MusicXML can't say everything a map says: an open vamp has no sign there, and a map knows no
 * notes, so bars with music come out as undrawn rests.
 */
@NullMarked
package org.barmap.exchange.musicxml;

import org.jspecify.annotations.NullMarked;
