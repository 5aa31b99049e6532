package org.barmap.plan.piece;

import java.util.Optional;
import org.barmap.map.Bar;
import org.barmap.map.Meter;

/**
 * What a piece that is not in the book is.
 *
 * @param change id of the change that adds it
 * @param host the entry it was added to; its signs count at the piece where they were moved to it
 * @param label what it is called; empty where it was given no name
 * @param spoken how it is spoken of: "24B", or "after 24"
 * @param shortName how it is written in a line of bars: "24B", or "24+2"
 * @param nth its place among the bars added with it, 1 for the first
 * @param meter its own meter, where it has one
 * @param known whether it was said to be a rest or music
 */
public record Inserted(
    String change,
    Bar host,
    Optional<String> label,
    String spoken,
    String shortName,
    int nth,
    Optional<Meter> meter,
    boolean known) {}
