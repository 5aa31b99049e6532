/**
 * MusicXML 4.0, both ways: the bar map's way out and other readings' way in.
 *
 * <p>A map goes out in the room {@code write}; what MusicXML can't say of it is listed there.
 */
@NullMarked
package org.barmap.exchange.musicxml;

import org.jspecify.annotations.NullMarked;
