package org.barmap.plan.rest;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

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
 * @param count what is counted, piece by piece: "4", "vamp 4", "8"
 * @param text how to count it, in plain words
 * @param unsure what nobody has looked at yet and it hangs on, "count 8 at bar 5, page 1"; may be
 *     empty
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
    List<String> count,
    String text,
    @JsonInclude(JsonInclude.Include.NON_EMPTY) List<String> unsure) {

  /** Takes defensive copies. */
  public LongRest {
    inBar = List.copyOf(inBar);
    landmarks = List.copyOf(landmarks);
    passes = List.copyOf(passes);
    count = List.copyOf(count);
    unsure = List.copyOf(unsure);
  }

  /** Returns the same rest with what nobody has looked at yet. */
  public LongRest withUnsure(List<String> hangsOn) {
    return with(passes, hangsOn);
  }

  /** Returns the same rest as it comes in more passes. */
  LongRest also(List<Integer> more) {
    return with(Stream.concat(passes.stream(), more.stream()).toList(), unsure);
  }

  private LongRest with(List<Integer> all, List<String> hangsOn) {
    return new LongRest(
        number, first, last, page, bars, beats, seconds, inBar, landmarks, entrance, all, count,
        text, hangsOn);
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
