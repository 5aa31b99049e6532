package org.barmap.plan.change;

import java.util.OptionalDouble;

/**
 * A place in a number as written.
 *
 * @param slot bars before it in the number, see {@link WrittenNumber}
 * @param beat the beat named, 1 for the first; empty for the whole bar
 */
public record Place(int slot, OptionalDouble beat) {

  /** Returns the place of a whole bar. */
  public static Place bar(int slot) {
    return new Place(slot, OptionalDouble.empty());
  }
}
