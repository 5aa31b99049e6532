package org.barmap.plan.mark;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import java.util.Optional;

/**
 * One mark to write into the book.
 *
 * @param page page index
 * @param system system on the page
 * @param bar id of the bar entry
 * @param mark a short stable word: {@code cut}, {@code land}, {@code rest-count}, {@code vamp},
 *     {@code V.S.} …
 * @param sign what to write, in the trade's own signs and words
 * @param number label of the number
 * @param where the bar as a player calls it
 * @param change id of the change it is for; empty for what follows from the book itself
 * @param unsure what nobody has looked at yet and it hangs on, "count 8 at bar 5, page 1"; may be
 *     empty
 */
@JsonInclude(JsonInclude.Include.NON_ABSENT)
public record PencilMark(
    int page,
    int system,
    String bar,
    String mark,
    String sign,
    String number,
    String where,
    Optional<String> change,
    @JsonInclude(JsonInclude.Include.NON_EMPTY) List<String> unsure) {

  /** Takes a defensive copy. */
  public PencilMark {
    unsure = List.copyOf(unsure);
  }

  /** Returns the same mark with what nobody has looked at yet. */
  public PencilMark withUnsure(List<String> hangsOn) {
    return new PencilMark(page, system, bar, mark, sign, number, where, change, hangsOn);
  }
}
