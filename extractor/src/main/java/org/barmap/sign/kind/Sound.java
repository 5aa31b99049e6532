package org.barmap.sign.kind;

import java.util.Optional;

/**
 * A note head or a rest inside a bar, to tell how long a player is silent before and after the
 * notes, and how many beats stand between two barlines.
 *
 * @param at along the staff, staff spaces; the notes of a chord are one
 * @param note true for a note head, false for a rest
 * @param quarters what it is worth in quarter notes, dots and tuplets taken into account; 0 for
 *     grace notes and the small notes of cues; empty where that isn't sure
 * @param likely the likeliest of what it may be worth, also where it isn't sure; empty where
 *     nothing is known
 * @param probability that there is one, 0 to 1
 */
public record Sound(
    double at,
    boolean note,
    Optional<Double> quarters,
    Optional<Double> likely,
    double probability) {}
