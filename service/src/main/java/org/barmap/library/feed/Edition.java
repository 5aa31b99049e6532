package org.barmap.library.feed;

import java.time.Instant;

/**
 * A book's map as it was when it was checked.
 *
 * @param number counts up from 1 in its book
 * @param madeAt when the book was checked
 * @param who who checked the last page, or made it by hand; may be empty
 * @param revision of the draft it was made of
 * @param pages of the map
 * @param bars written bars of the map
 * @param sha256 of the document, in hexadecimal
 * @param bytes of the document
 */
public record Edition(
    int number,
    Instant madeAt,
    String who,
    long revision,
    int pages,
    int bars,
    String sha256,
    long bytes) {}
