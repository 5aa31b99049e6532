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
 * @param opening how it begins; empty where it isn't played
 * @param vamps its open stretches, in order; may be empty
 * @param cuts what is out, "5-8", in order; may be empty
 * @param plus what comes on top of its length and has none, "vamp 10-11"; may be empty
 * @param track it runs with a track, which doesn't wait
 * @param unsure what nobody has looked at yet and its length hangs on; may be empty
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
    Link link,
    Optional<Opening> opening,
    @JsonInclude(JsonInclude.Include.NON_EMPTY) List<Open> vamps,
    @JsonInclude(JsonInclude.Include.NON_EMPTY) List<String> cuts,
    @JsonInclude(JsonInclude.Include.NON_EMPTY) List<String> plus,
    @JsonInclude(JsonInclude.Include.NON_DEFAULT) boolean track,
    @JsonInclude(JsonInclude.Include.NON_EMPTY) List<String> unsure) {

  /** Takes defensive copies. */
  public RunSheet {
    instruments = List.copyOf(instruments);
    vamps = List.copyOf(vamps);
    cuts = List.copyOf(cuts);
    plus = List.copyOf(plus);
    unsure = List.copyOf(unsure);
  }

  /**
   * How a number begins, where it now begins.
   *
   * @param meter "6/8"; empty where unknown
   * @param beats beats the director shows in a bar; 0 where no meter is known
   * @param perMinute quarters a minute; empty where no tempo is known
   * @param instrument what is in hand; empty where unknown
   * @param bow "arco", "pizz" or "col legno"; empty where unknown
   * @param mute "mute on", "mute off" or the mute by its name; empty where unknown
   */
  @JsonInclude(JsonInclude.Include.NON_ABSENT)
  public record Opening(
      Optional<String> meter,
      int beats,
      Optional<Double> perMinute,
      Optional<String> instrument,
      Optional<String> bow,
      Optional<String> mute) {}

  /**
   * A vamp or a safety.
   *
   * @param kind {@code vamp} or {@code safety}
   * @param bars "10-11"
   * @param cue what ends it, where that was said
   * @param exit how it is left, "end-of-pass", "any-time", "on beat 3 of bar 11"; empty where
   *     unknown
   * @param pass in which pass of a repeat around it, "2nd time"; empty for every one
   */
  @JsonInclude(JsonInclude.Include.NON_ABSENT)
  public record Open(
      String kind,
      String bars,
      Optional<String> cue,
      Optional<String> exit,
      Optional<String> pass) {}

  /** Returns the same line with what nobody has looked at yet, and the length that leaves. */
  RunSheet withUnsure(Optional<Double> length, List<String> hangsOn) {
    return new RunSheet(
        number,
        title,
        state,
        page,
        instruments,
        entrance,
        entranceAfter,
        key,
        length,
        known,
        link,
        opening,
        vamps,
        cuts,
        plus,
        track,
        hangsOn);
  }
}
