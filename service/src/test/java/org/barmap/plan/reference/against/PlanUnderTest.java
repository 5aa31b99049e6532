package org.barmap.plan.reference.against;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.barmap.map.BarMap;
import org.barmap.plan.reference.Aspect;
import org.barmap.plan.reference.Walked.Playing;
import tools.jackson.databind.JsonNode;

/** A planner that is compared with the walker: an adapter of a few lines implements it. */
public interface PlanUnderTest {

  /**
   * Plans a book.
   *
   * @param changes entries of {@code changes} in a {@code changes/1} document
   * @param repeatsAfterJump the player's setting
   */
  Planned plan(BarMap map, List<JsonNode> changes, boolean repeatsAfterJump);

  /** What the planner means by the pass of a bar. */
  default Passes passes() {
    return Passes.NOT_TOLD;
  }

  /** What the pass of a bar counts. */
  enum Passes {
    /** The pass of the innermost repeat around the bar. */
    OF_REPEAT,
    /** How many times the bar has sounded in the number. */
    TIMES_SOUNDED,
    /** Passes are not compared. */
    NOT_TOLD
  }

  /**
   * What a planner found.
   *
   * @param numbers in the order of the show
   * @param asked it asks, refuses or doubts something of the book as a whole, or of a change that
   *     belongs to no number
   */
  record Planned(List<PlannedNumber> numbers, boolean asked) {}

  /**
   * One number.
   *
   * @param order bars as they sound, one by one
   * @param open vamps and safeties; empty when the planner does not tell
   * @param asked it asks, refuses or doubts something of the form of this number
   * @param says its findings, for the reader of a difference
   * @param total beats and seconds of it
   */
  record PlannedNumber(
      String label,
      Playing playing,
      List<PlannedBar> order,
      Optional<List<PlannedOpen>> open,
      boolean asked,
      List<String> says,
      Total total) {}

  /** Beats as the director shows them, and seconds; empty where the planner does not tell. */
  record Total(OptionalDouble beats, OptionalDouble seconds) {
    /** Nothing told. */
    public static final Total NONE = new Total(OptionalDouble.empty(), OptionalDouble.empty());
  }

  /**
   * One bar that sounds.
   *
   * @param bar id of its entry; of an inserted bar, of the entry it comes behind
   * @param offset which bar of the entry, 0 for the first
   * @param inserted its name where it is inserted
   * @param cutAtStart beats out at its start, in the meter's lower figure
   * @param cutInside beats out between beats that sound
   * @param cutAtEnd beats out at its end
   * @param pass see {@link #passes()}
   * @param state values of the aspects the planner tells, as {@link Aspect} writes them
   */
  record PlannedBar(
      String bar,
      int offset,
      Optional<String> inserted,
      double cutAtStart,
      double cutInside,
      double cutAtEnd,
      OptionalInt pass,
      Map<Aspect, String> state) {

    /** A written bar as it stands. */
    public static PlannedBar written(String bar, int offset) {
      return new PlannedBar(bar, offset, Optional.empty(), 0, 0, 0, OptionalInt.empty(), Map.of());
    }

    /** The same with what is in force. */
    public PlannedBar with(Map<Aspect, String> now) {
      return new PlannedBar(
          bar, offset, inserted, cutAtStart, cutInside, cutAtEnd, pass, Map.copyOf(now));
    }
  }

  /** An open stretch, its first and last bar by entry and offset. */
  record PlannedOpen(String kind, String first, int firstOffset, String last, int lastOffset) {}
}
