package org.barmap.sign.kind;

/**
 * The page's own number as it was read.
 *
 * @param number as printed, 1 or more
 * @param probability how likely the page carries this number, 0 to 1
 */
public record Folio(int number, double probability) {}
