package org.barmap.reckon.write;

import java.util.List;
import java.util.Optional;
import org.barmap.map.Bar;

/**
 * A settled bar with what was read of it, for writing findings.
 *
 * @param bar as settled
 * @param rest whether a rest of several bars stands in it
 * @param open nobody set or answered it, so that doubts may be raised
 * @param readCount the best reading of its numeral
 * @param countChoice probability of the settled count
 * @param otherCount the next most likely count
 * @param printed numbers printed at its start, as read
 * @param lineMissing a barline was missed at its right side; where is a guess
 * @param lineDoubtful the line at its right side may be none
 */
public record Item(
    Bar bar,
    boolean rest,
    boolean open,
    Optional<Integer> readCount,
    double countChoice,
    int otherCount,
    List<String> printed,
    boolean lineMissing,
    boolean lineDoubtful) {}
