package org.barmap.plan;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.Optional;

/**
 * Something to know before it comes.
 *
 * @param kind {@code page-start}, {@code odd-bar}, {@code meter}, {@code key}, {@code entrance},
 *     {@code hold}; of the show {@code cut}, {@code vamp}, {@code safety}, {@code added}, {@code
 *     said}
 * @param number label of the number
 * @param page page it is on
 * @param bar id of the bar entry
 * @param text in plain words
 * @param fromPage page that is left, for a page start
 */
@JsonInclude(JsonInclude.Include.NON_ABSENT)
public record LookAhead(
    String kind, String number, int page, String bar, String text, Optional<Integer> fromPage) {}
