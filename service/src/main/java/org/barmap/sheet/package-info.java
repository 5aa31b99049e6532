/**
 * Printed sheets as PDF: run sheet, stand sheets, turn slips, rest sheet, changes, marks to write,
 * marks to erase.
 *
 * <p>Black on white, nothing below 12 points, 18 in big type, so that they can be read at a stand
 * light; the usual cautions stand on the sheets they belong to. Lengths are points, 72 to the inch.
 * Fonts: Liberation Sans, SIL Open Font License 1.1, its text beside the files.
 */
@NullMarked
package org.barmap.sheet;

import org.jspecify.annotations.NullMarked;
