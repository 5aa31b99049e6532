package org.barmap.plan.cases;

import java.util.Optional;

/**
 * What a made book says of a page beside its bars. Printed number and picture stand in its map, the
 * kind of leaf is what its player says.
 *
 * @param index page index in the map, 1 for the first
 * @param folio the page number printed on it
 * @param picture the picture it was taken from; two pages of one picture are one opening
 * @param leaf {@code bound}, {@code inserted} (a single leaf laid in), {@code loose} (a copy beside
 *     the book)
 * @param unread the page is there but could not be read
 */
public record PageFacts(
    int index, Optional<Integer> folio, Optional<String> picture, String leaf, boolean unread) {}
