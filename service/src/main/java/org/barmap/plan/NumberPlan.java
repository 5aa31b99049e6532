package org.barmap.plan;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonUnwrapped;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.barmap.plan.change.term.Link;
import org.barmap.plan.order.Following;
import org.barmap.plan.order.OpenStretch;
import org.barmap.plan.pace.Length;
import org.barmap.plan.ready.Hands;

/**
 * One number of the night.
 *
 * @param label as the book calls it; empty for a book without numbers
 * @param title may be empty
 * @param state played, tacet or cut
 * @param order bar entries as they sound
 * @param written bars written, both endings counted, pickups not
 * @param pace where beats or tempo become others, in the order of play; may be empty
 * @param played what is played
 * @param known what of its time is known, where not all of it is
 * @param cut what is left out on the way, over all passes
 * @param open vamps and safeties
 * @param link how the next number follows
 * @param following the same with what a change says of it
 * @param hands what is held from which bar of the order of play on; empty where nothing is known
 * @param unsure what nobody has looked at yet and it hangs on, "count 8 at bar 5, page 1"; may be
 *     empty
 */
public record NumberPlan(
    String label,
    String title,
    State state,
    List<Entry> order,
    int written,
    @JsonInclude(JsonInclude.Include.NON_EMPTY) List<Stretch> pace,
    Length played,
    @JsonInclude(JsonInclude.Include.NON_ABSENT) Optional<KnownTime> known,
    Length cut,
    List<OpenStretch> open,
    Link link,
    Following following,
    @JsonInclude(JsonInclude.Include.NON_EMPTY) List<Held> hands,
    @JsonInclude(JsonInclude.Include.NON_EMPTY) List<String> unsure) {

  /** Takes defensive copies. */
  public NumberPlan {
    order = List.copyOf(order);
    pace = List.copyOf(pace);
    open = List.copyOf(open);
    hands = List.copyOf(hands);
    unsure = List.copyOf(unsure);
  }

  /** A number whose bars have all been looked at. */
  public NumberPlan(
      String label,
      String title,
      State state,
      List<Entry> order,
      int written,
      List<Stretch> pace,
      Length played,
      Optional<KnownTime> known,
      Length cut,
      List<OpenStretch> open,
      Link link,
      Following following,
      List<Held> hands) {
    this(
        label, title, state, order, written, pace, played, known, cut, open, link, following, hands,
        List.of());
  }

  /** Returns the same number with what nobody has looked at yet. */
  NumberPlan withUnsure(Length length, List<String> hangsOn) {
    return new NumberPlan(
        label, title, state, order, written, pace, length, known, cut, open, link, following, hands,
        hangsOn);
  }

  /** What the player does in a number. */
  public enum State {
    /** Plays. */
    PLAYED,
    /** Waits: the number is in the show. */
    TACET,
    /** Nothing: the number is not in the show. */
    CUT;

    /** Returns the word the format uses. */
    @JsonValue
    public String word() {
      return name().toLowerCase(Locale.ROOT);
    }
  }

  /**
   * How bars are counted and how fast they go, from one bar on until the next stretch.
   *
   * @param from how many single bars of the order of play come before it, each bar of a multi-bar
   *     rest and pickups counted
   * @param beats beats the director shows in a bar; 0 where no meter is known
   * @param perMinute quarters a minute at its start; empty where no tempo is known
   * @param toPerMinute quarters a minute at its end, where the tempo changes by and by
   */
  @JsonInclude(JsonInclude.Include.NON_ABSENT)
  public record Stretch(
      int from, int beats, Optional<Double> perMinute, Optional<Double> toPerMinute) {}

  /**
   * What the player holds from one bar on until the next stretch.
   *
   * @param from how many single bars of the order of play come before it, counted as in {@link
   *     Stretch}
   * @param held instrument, bow, mute, extension and tuning, as far as known
   */
  public record Held(int from, @JsonUnwrapped Hands held) {}

  /**
   * What of a number's time is known.
   *
   * @param seconds how long the bars with a tempo last
   * @param bars how many bars that are
   * @param barsWithout bars that have no tempo
   */
  public record KnownTime(double seconds, int bars, int barsWithout) {}

  /**
   * A bar entry as it sounds.
   *
   * @param bar id of the entry; for inserted bars that of the entry they come after
   * @param pass how often it has been played now
   * @param from first bar played of a multi-bar rest, 1 for its first; only when it is shortened
   * @param bars bars played of it; only when it is shortened, and for inserted bars
   * @param beatsCut beats left out of it, in the meter's lower figure
   * @param beatsCutStart how many of them at its start
   * @param beatsCutEnd how many of them at its end; those left lie in its middle
   * @param inserted what inserted bars are called
   * @param added what else is known of inserted bars
   * @param silent the player rests this time, though the book has notes
   */
  @JsonInclude(JsonInclude.Include.NON_ABSENT)
  public record Entry(
      String bar,
      int pass,
      Optional<Integer> from,
      Optional<Integer> bars,
      Optional<Double> beatsCut,
      Optional<Double> beatsCutStart,
      Optional<Double> beatsCutEnd,
      Optional<String> inserted,
      Optional<Added> added,
      Optional<Boolean> silent) {}

  /**
   * Bars that are not in the book.
   *
   * @param names what each is called in a line of bars: "24B", or "24+2"
   * @param content rest or music; empty where nobody said
   * @param meter their own meter, "3/4"
   */
  @JsonInclude(JsonInclude.Include.NON_ABSENT)
  public record Added(List<String> names, Optional<String> content, Optional<String> meter) {
    /** Takes a defensive copy. */
    public Added {
      names = List.copyOf(names);
    }
  }
}
