package org.barmap.plan.change.say;

import java.util.Optional;

/**
 * What every change carries besides what it does.
 *
 * @param id unique among the changes of a show
 * @param on a change that is switched off stays in the list and does nothing
 * @param when the moment it was made, ISO 8601
 * @param who who made it
 * @param note a free remark
 */
public record Meta(
    String id, boolean on, Optional<String> when, Optional<String> who, Optional<String> note) {

  /** Returns the particulars of a change that has only an id and is switched on. */
  public static Meta of(String id) {
    return new Meta(id, true, Optional.empty(), Optional.empty(), Optional.empty());
  }

  /** Returns the same particulars, switched on or off. */
  public Meta switched(boolean nowOn) {
    return new Meta(id, nowOn, when, who, note);
  }

  /** Returns the same particulars with another note. */
  public Meta noted(Optional<String> words) {
    return new Meta(id, on, when, who, words);
  }
}
