/** Tests of MusicXML, out and in. */
@NullMarked
package org.barmap.exchange.musicxml;

import org.jspecify.annotations.NullMarked;
