package org.barmap.plan.piece;

import java.util.Optional;
import org.barmap.map.Bar;

/**
 * A bar entry, or a stretch of a multi-bar rest, that is played or left out as one.
 *
 * @param bar the entry it is part of; for an inserted bar the entry it comes after
 * @param offset bars of the entry before it
 * @param count bars it stands for
 * @param slot bars of the number before it, as written
 * @param cut left out altogether
 * @param cutStart beats left out at its start, as the director shows them
 * @param cutEnd beats left out at its end
 * @param cutMiddle beats left out between two that are played
 * @param inserted what an inserted bar is called; empty for a written one
 */
public record Piece(
    Bar bar,
    int offset,
    int count,
    int slot,
    boolean cut,
    double cutStart,
    double cutEnd,
    double cutMiddle,
    Optional<String> inserted) {

  /** Returns a whole entry, or a stretch of one, nothing of it cut. */
  static Piece of(Bar bar, int offset, int count, int slot) {
    return new Piece(bar, offset, count, slot, false, 0, 0, 0, Optional.empty());
  }

  /** Returns a whole entry by itself. */
  public static Piece whole(Bar bar) {
    return of(bar, 0, bar.count(), 0);
  }

  /** Returns the piece left out, with the signs in it. */
  Piece withCut() {
    return new Piece(bar, offset, count, slot, true, 0, 0, 0, inserted);
  }

  /** Returns the piece with beats left out. */
  Piece withBeatsCut(double start, double end, double middle) {
    return new Piece(
        bar,
        offset,
        count,
        slot,
        cut,
        cutStart + start,
        cutEnd + end,
        cutMiddle + middle,
        inserted);
  }

  /** Tells whether the entry begins with it, so that signs at its start count. */
  public boolean first() {
    return offset == 0 && inserted.isEmpty();
  }

  /** Tells whether the entry ends with it, so that signs at its end count. */
  public boolean last() {
    return offset + count == bar.count() && inserted.isEmpty();
  }

  /** Tells whether its end is cut, and with it the signs there. */
  public boolean endCut() {
    return cut || cutEnd > 0;
  }

  /** Tells whether it is only a part of its entry. */
  public boolean partial() {
    return count < bar.count() && inserted.isEmpty();
  }

  /** Returns the beats left out of it while some are played. */
  public double beatsCut() {
    return cutStart + cutEnd + cutMiddle;
  }

  /** Tells whether the player rests throughout. */
  public boolean rest() {
    return inserted.isEmpty() && bar.isRest();
  }

  /** Tells whether it is a pickup, which counts neither as a bar nor in time. */
  public boolean pickup() {
    return inserted.isEmpty() && bar.number() == 0 && bar.label().isEmpty() && bar.count() == 1;
  }

  /** Returns how many counted bars it stands for: none for a pickup. */
  public int bars() {
    return pickup() ? 0 : count;
  }
}
