package org.barmap.plan.rest;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import java.util.Optional;

/**
 * A long rest as it is played: what stands next to each other in the order of play is one rest.
 *
 * @param number label of the number
 * @param first id of its first bar entry
 * @param last id of its last bar entry
 * @param page page it begins on
 * @param bars how many bars, pickups not counted
 * @param beats how many beats, where all meters are known
 * @param seconds how long, where tempo and meter are known
 * @param inBar how many beats to count in each bar, in order of appearance; one entry when it stays
 *     the same
 * @param landmarks what stands inside it
 * @param entrance id of the bar entry that is played next; empty at the end of the number
 * @param passes in which passes it comes in just this form
 * @param text how to count it, in plain words
 */
@JsonInclude(JsonInclude.Include.NON_ABSENT)
public record LongRest(
    String number,
    String first,
    String last,
    int page,
    int bars,
    Optional<Double> beats,
    Optional<Double> seconds,
    List<Integer> inBar,
    List<Landmark> landmarks,
    Optional<String> entrance,
    List<Integer> passes,
    String text) {

  /** Takes defensive copies. */
  public LongRest {
    inBar = List.copyOf(inBar);
    landmarks = List.copyOf(landmarks);
    passes = List.copyOf(passes);
  }

  /**
   * Something to hold on to inside a rest.
   *
   * @param after bars of the rest before it
   * @param what "B", "6/8", "q. = 60", "3 flats", "on at 50", "Molly exits"
   * @param kind mark, meter, key, tempo, words or cut
   */
  public record Landmark(int after, String what, String kind) {}
}
