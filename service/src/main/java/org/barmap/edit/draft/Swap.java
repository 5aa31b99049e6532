package org.barmap.edit.draft;

/**
 * A value before and after.
 *
 * @param <T> kind of value
 */
public record Swap<T>(T before, T after) {

  /** Returns the other way round. */
  Swap<T> reversed() {
    return new Swap<>(after, before);
  }
}
