package org.barmap.plan;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import java.util.Optional;
import org.barmap.plan.change.term.Link;

/**
 * One line of the run sheet: a number in the order of the night.
 *
 * @param number label
 * @param title may be empty
 * @param state played, tacet or cut
 * @param page page it starts on; empty where it has no bars in the book
 * @param instruments what is played in it, in order of first use; may be empty where unknown
 * @param entrance how the first entrance is called, "bar 17", "the pickup"; empty where nothing is
 *     played
 * @param entranceAfter bars of rest before the first entrance
 * @param key the key it starts in, as a player says it, "3 flats"; empty where unknown
 * @param seconds how long it lasts, where tempi are known
 * @param known what of that is known, where not all of it is
 * @param link how the next number follows
 */
@JsonInclude(JsonInclude.Include.NON_ABSENT)
public record RunSheet(
    String number,
    String title,
    NumberPlan.State state,
    Optional<Integer> page,
    List<String> instruments,
    Optional<String> entrance,
    Optional<Integer> entranceAfter,
    Optional<String> key,
    Optional<Double> seconds,
    Optional<NumberPlan.KnownTime> known,
    Link link) {

  /** Takes a defensive copy. */
  public RunSheet {
    instruments = List.copyOf(instruments);
  }
}
