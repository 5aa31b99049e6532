package org.barmap.plan.change.effect;

/**
 * What a player writes into the book for a change.
 *
 * @param where at which of its bars
 * @param mark a short stable word for the kind of mark
 * @param sign what to write, in the trade's own signs and words
 */
public record Marking(Where where, String mark, String sign) {

  /** At which bars of a change its mark is written. */
  public enum Where {
    /** At its first bar; at the first of the number where it names none. */
    FIRST,
    /** At its first bar, and repeat signs around its bars where none are printed. */
    AROUND,
    /** At its first bar, and a bracket behind its last one. */
    BRACKETED,
    /** At its first bar, and after its last one the number of beats that held before. */
    BEATEN
  }

  /** Returns a mark at the first bar. */
  public static Marking at(String mark, String sign) {
    return new Marking(Where.FIRST, mark, sign);
  }
}
