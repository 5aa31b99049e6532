package org.barmap.work.child;

import java.util.Optional;
import org.barmap.library.PageCard;
import org.barmap.map.Outline;

/**
 * What the child is asked for.
 *
 * @param id its answers carry the same
 * @param file where it lies
 * @param name what the player calls it; or where its smaller picture is to be
 * @param from page of the file to open first, from 0; or index of the page in the book; or how wide
 *     its smaller picture is to be, pixels
 * @param page and frame: of a line drawn on it
 */
record Ask(
    long id,
    Kind kind,
    String file,
    String name,
    int from,
    Optional<PageCard> page,
    Optional<Outline> frame) {

  /** What for. */
  enum Kind {
    /** How many pages a file has: one answer {@code COUNT}. */
    COUNT,
    /** The pictures of a file: {@code COUNT}, a {@code PICTURE} for each page, {@code END}. */
    OPEN,
    /** What is on a picture: a {@code PAGE} for each page on it, {@code END}. */
    READ,
    /** What is on a page with a line drawn: a {@code PAGE}, or none, {@code END}. */
    LINE,
    /** A smaller picture: {@code END} when it is there. */
    SCALE
  }
}
