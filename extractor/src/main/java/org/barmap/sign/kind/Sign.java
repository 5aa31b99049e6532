package org.barmap.sign.kind;

import java.util.List;
import java.util.Optional;
import org.barmap.map.Enclosure;
import org.barmap.map.Outline;

/**
 * A sign found at a staff.
 *
 * <p>Distances along and across are in staff spaces: {@code from} and {@code to} run along the
 * staff from its left end; {@code top} and {@code bottom} are measured from the middle line,
 * negative above it (the top staff line is -2, the bottom one 2). A barline's position is the
 * middle between from and to.
 *
 * @param kind what it is
 * @param from left side along the staff, staff spaces
 * @param to right side along the staff, staff spaces
 * @param top upper side, staff spaces from the middle line, negative above
 * @param bottom lower side, staff spaces from the middle line
 * @param outline where it is on the page, pixels of the given file
 * @param probability how likely there is such a sign here, 0 to 1
 * @param readings what it may say, best first; for a barline its types by their words; may be empty
 * @param enclosure what is drawn around a rehearsal mark or a bar number; empty for other kinds
 */
public record Sign(
    SignKind kind,
    double from,
    double to,
    double top,
    double bottom,
    Outline outline,
    double probability,
    List<Reading> readings,
    Optional<Enclosure> enclosure) {

  /** What an ending reads whose bracket goes on from the line before. */
  public static final String GOES_ON = "...";

  /** Takes a defensive copy of the readings. */
  public Sign {
    readings = List.copyOf(readings);
  }

  /** Returns the same sign at other positions along the staff. */
  public Sign at(double left, double right) {
    return new Sign(kind, left, right, top, bottom, outline, probability, readings, enclosure);
  }

  /** Returns the same sign as another kind. */
  public Sign as(SignKind other) {
    return new Sign(other, from, to, top, bottom, outline, probability, readings, enclosure);
  }

  /** Returns the same sign with another probability. */
  public Sign likely(double other) {
    return new Sign(kind, from, to, top, bottom, outline, other, readings, enclosure);
  }

  /** Returns the same sign with other readings. */
  public Sign saying(List<Reading> other) {
    return new Sign(kind, from, to, top, bottom, outline, probability, other, enclosure);
  }

  /** Returns the middle along the staff, staff spaces from its left end. */
  public double at() {
    return (from + to) / 2;
  }

  /** Returns the best reading's text, or the empty text. */
  public String text() {
    return readings.isEmpty() ? "" : readings.get(0).text();
  }
}
