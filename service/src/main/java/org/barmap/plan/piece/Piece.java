package org.barmap.plan.piece;

import java.util.Optional;
import org.barmap.map.Bar;
import org.barmap.map.Navigation;

/**
 * A bar entry, or a stretch of a multi-bar rest, that is played or left out as one.
 *
 * @param bar the entry it is part of; for a bar that is added one made after the entry it was added
 *     to, with that entry's id and place on the page, and none of its signs
 * @param offset bars of the entry before it
 * @param count bars it stands for
 * @param slot bars of the number before it, as written
 * @param cut left out altogether
 * @param cutStart beats left out at its start, as the director shows them
 * @param cutEnd beats left out at its end
 * @param cutMiddle beats left out between two that are played
 * @param added what it is where it is not in the book; empty for a written one
 * @param startSigns the signs at the start of its entry count at its start
 * @param endSigns the signs at the end of its entry count at its end
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
    Optional<Inserted> added,
    boolean startSigns,
    boolean endSigns) {

  /** Returns a whole entry, or a stretch of one, nothing of it cut. */
  static Piece of(Bar bar, int offset, int count, int slot) {
    boolean last = offset + count == bar.count();
    return new Piece(bar, offset, count, slot, false, 0, 0, 0, Optional.empty(), offset == 0, last);
  }

  /** Returns one bar that is not in the book, played before a slot. */
  static Piece added(Bar made, int slot, Inserted inserted) {
    return new Piece(made, 0, 1, slot, false, 0, 0, 0, Optional.of(inserted), false, false);
  }

  /** Returns a whole entry by itself. */
  public static Piece whole(Bar bar) {
    return of(bar, 0, bar.count(), 0);
  }

  /** Returns the piece with other content of its entry. */
  public Piece in(Bar other) {
    return new Piece(
        other, offset, count, slot, cut, cutStart, cutEnd, cutMiddle, added, startSigns, endSigns);
  }

  /** Returns a stretch of a multi-bar rest as an entry by itself. */
  Piece alone(Bar part) {
    return new Piece(
        part, 0, count, slot, cut, cutStart, cutEnd, cutMiddle, added, startSigns, true);
  }

  /** Returns the piece left out, with the signs in it. */
  Piece withCut() {
    return new Piece(bar, offset, count, slot, true, 0, 0, 0, added, startSigns, endSigns);
  }

  /** Returns the piece as it is played where the cut doesn't hold. */
  public Piece uncut() {
    return new Piece(bar, offset, count, slot, false, 0, 0, 0, added, startSigns, endSigns);
  }

  /** Returns the piece with beats left out; those left out twice count once. */
  Piece withBeatsCut(double start, double end, double middle) {
    return new Piece(
        bar,
        offset,
        count,
        slot,
        cut,
        Math.max(cutStart, start),
        Math.max(cutEnd, end),
        cutMiddle + middle,
        added,
        startSigns,
        endSigns);
  }

  /** Returns the piece with the signs of its entry counting at it, or elsewhere. */
  Piece withSigns(boolean atStart, boolean atEnd) {
    return new Piece(
        bar, offset, count, slot, cut, cutStart, cutEnd, cutMiddle, added, atStart, atEnd);
  }

  /** Returns how an added bar is spoken of; empty for a written one. */
  public Optional<String> inserted() {
    return added.map(Inserted::spoken);
  }

  /** Returns how an added bar is written in a line of bars. */
  public String shortName() {
    return added.map(Inserted::shortName).orElse("");
  }

  /** Tells whether the entry begins with it. */
  public boolean first() {
    return offset == 0 && added.isEmpty();
  }

  /** Tells whether the entry ends with it. */
  public boolean last() {
    return offset + count == bar.count() && added.isEmpty();
  }

  /** Returns the entry whose signs count at it, where any do. */
  public Bar signBar() {
    return added.map(Inserted::host).orElse(bar);
  }

  /** Tells whether a sign that counts at a bar's start stands at its start. */
  public boolean startsWith(Navigation sign) {
    return startSigns && signBar().has(sign);
  }

  /** Tells whether a sign that counts at a bar's end stands at its end. */
  public boolean endsWith(Navigation sign) {
    return endSigns && signBar().has(sign);
  }

  /** Tells whether its end is cut, and with it the signs there. */
  public boolean endCut() {
    return cut || cutEnd > 0;
  }

  /** Tells whether it is only a part of its entry. */
  public boolean partial() {
    return count < bar.count() && added.isEmpty();
  }

  /** Returns the beats left out of it while some are played. */
  public double beatsCut() {
    return cutStart + cutEnd + cutMiddle;
  }

  /** Tells whether the player rests throughout. */
  public boolean rest() {
    return bar.isRest();
  }

  /**
   * Tells whether it is a pickup, which counts as no bar, and in time only in a meter of its own.
   */
  public boolean pickup() {
    return added.isEmpty() && bar.number() == 0 && bar.label().isEmpty() && bar.count() == 1;
  }

  /** Returns how many counted bars it stands for: none for a pickup. */
  public int bars() {
    return pickup() ? 0 : count;
  }
}
