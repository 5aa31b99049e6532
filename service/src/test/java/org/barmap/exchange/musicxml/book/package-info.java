/** Tests of books that come from MusicXML. */
@NullMarked
package org.barmap.exchange.musicxml.book;

import org.jspecify.annotations.NullMarked;
