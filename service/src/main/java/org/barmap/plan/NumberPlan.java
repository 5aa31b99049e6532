package org.barmap.plan;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.barmap.plan.order.Length;
import org.barmap.plan.order.Link;
import org.barmap.plan.order.OpenStretch;

/**
 * One number of the night.
 *
 * @param label as the book calls it; empty for a book without numbers
 * @param title may be empty
 * @param state played, tacet or cut
 * @param order bar entries as they sound
 * @param written bars written, both endings counted, pickups not
 * @param played what is played
 * @param cut what is left out on the way, over all passes
 * @param open vamps and safeties
 * @param link how the next number follows
 */
public record NumberPlan(
    String label,
    String title,
    State state,
    List<Entry> order,
    int written,
    Length played,
    Length cut,
    List<OpenStretch> open,
    Link link) {

  /** Takes defensive copies. */
  public NumberPlan {
    order = List.copyOf(order);
    open = List.copyOf(open);
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
   * A bar entry as it sounds.
   *
   * @param bar id of the entry; for inserted bars that of the entry they come after
   * @param pass how often it has been played now
   * @param from first bar played of a multi-bar rest, 1 for its first; only when it is shortened
   * @param bars bars played of it; only when it is shortened, and for inserted bars
   * @param beatsCut beats left out of it, in the meter's lower figure
   * @param inserted what inserted bars are called
   */
  @JsonInclude(JsonInclude.Include.NON_ABSENT)
  public record Entry(
      String bar,
      int pass,
      Optional<Integer> from,
      Optional<Integer> bars,
      Optional<Double> beatsCut,
      Optional<String> inserted) {}
}
