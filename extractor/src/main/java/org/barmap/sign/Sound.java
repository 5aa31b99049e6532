package org.barmap.sign;

import java.util.Optional;

/**
 * A note head or a rest inside a bar, to tell how long a player is silent before and after the
 * notes.
 *
 * @param at along the staff, staff spaces
 * @param note true for a note head, false for a rest
 * @param quarters what a rest is worth as it is printed, in quarter notes, tuplets left out of
 *     account; empty for notes and for rests of unknown value
 * @param probability 0 to 1
 */
public record Sound(double at, boolean note, Optional<Double> quarters, double probability) {}
