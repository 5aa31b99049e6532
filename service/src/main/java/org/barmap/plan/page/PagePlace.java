package org.barmap.plan.page;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.Optional;

/**
 * Where a page lies.
 *
 * @param page page index
 * @param side left, right or unknown
 * @param opening which opening it lies in; as many leaves lie between two pages as their openings
 *     are apart. Where sides are unknown it is what the plan goes by
 * @param folio the page number printed on it, where one was read
 * @param leaf bound, inserted or loose
 */
@JsonInclude(JsonInclude.Include.NON_ABSENT)
public record PagePlace(int page, Side side, int opening, Optional<Integer> folio, Leaf leaf) {}
