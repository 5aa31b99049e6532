/**
 * A bar map as MusicXML 4.0: one part without notes, and a list of what MusicXML can't say of it.
 */
@NullMarked
package org.barmap.exchange.musicxml.write;

import org.jspecify.annotations.NullMarked;
