/**
 * A MusicXML file as a book without pages: {@link org.barmap.exchange.musicxml.book.ScoreBook}.
 *
 * <p>Every entry is a bar as the file has it; what a bar map has no place for is said in findings.
 * A measure whose number is not displayed and that goes on with the bar before it (a bar split by a
 * repeat sign) is a pickup, number 0: it counts neither as a bar nor in time, since the bar before
 * it is counted whole.
 */
@NullMarked
package org.barmap.exchange.musicxml.book;

import org.jspecify.annotations.NullMarked;
