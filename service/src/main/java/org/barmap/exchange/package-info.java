/**
 * The bar map's way out and other readings' way in: MusicXML 4.0, a table of bars, changes in
 * words.
 *
 * <p>MusicXML can't say everything a map says: an open vamp has no sign there, and a map knows no
 * notes, so bars with music come out as undrawn rests. Nothing here writes page images.
 */
@NullMarked
package org.barmap.exchange;

import org.jspecify.annotations.NullMarked;
