package org.barmap.library;

import java.util.Optional;

/**
 * A page of a book.
 *
 * @param id opaque
 * @param index 1 for the first page of the book
 * @param source name of the file it came from, as given
 * @param width of its picture, pixels
 * @param height of its picture, pixels
 * @param state how far its reading is
 * @param finding what went wrong, one sentence, if something did
 * @param picture name of its picture in the book's folder; two pages of an opening share one
 * @param part 1 for the first page on its picture
 */
public record PageCard(
    String id,
    int index,
    String source,
    int width,
    int height,
    PageState state,
    Optional<String> finding,
    String picture,
    int part) {}
