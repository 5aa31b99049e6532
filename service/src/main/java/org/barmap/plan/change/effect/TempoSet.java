package org.barmap.plan.change.effect;

import java.util.Optional;

/**
 * A tempo, or one that leads to another over the bars of its change.
 *
 * @param beat note value of the beat as a share of a whole note, "1/4", "3/8"
 * @param perMinute beats a minute
 * @param toPerMinute beats a minute it leads to
 */
public record TempoSet(String beat, double perMinute, Optional<Double> toPerMinute) {}
