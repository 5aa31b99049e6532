package org.barmap.plan.change.effect;

/**
 * The bars a change is about, as they were said; both ends included.
 *
 * @param first address of the first bar
 * @param last address of the last bar, the same for a single one
 */
public record Stretch(String first, String last) {

  /** Returns a single bar. */
  public static Stretch at(String bar) {
    return new Stretch(bar, bar);
  }
}
