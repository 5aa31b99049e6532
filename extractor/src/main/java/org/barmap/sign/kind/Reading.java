package org.barmap.sign.kind;

/**
 * One way a sign may be read.
 *
 * @param text the numeral, letter, meter ("4/4", "C", "C|"), word, or the word of a barline type
 * @param probability 0 to 1; the readings of one sign sum to at most 1, the rest is "something
 *     else"
 */
public record Reading(String text, double probability) {}
