package org.barmap.plan.pace;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.barmap.plan.change.term.Figures;
import org.barmap.plan.piece.Piece;

/**
 * How long a stretch is.
 *
 * @param bars bars, pickups not counted
 * @param beats beats as the director shows them; empty where a meter is unknown
 * @param seconds empty where a tempo or meter is unknown
 * @param plus what comes on top and has no length: "vamp 9-12", "hold 4"; each once
 */
@JsonInclude(JsonInclude.Include.NON_ABSENT)
public record Length(
    int bars,
    Optional<Double> beats,
    Optional<Double> seconds,
    @JsonInclude(JsonInclude.Include.NON_EMPTY) List<String> plus) {

  /** Takes a defensive copy. */
  public Length {
    plus = List.copyOf(plus);
  }

  /** Makes a length with nothing on top. */
  public Length(int bars, Optional<Double> beats, Optional<Double> seconds) {
    this(bars, beats, seconds, List.of());
  }

  /** Returns the length of nothing. */
  public static Length none() {
    return new Length(0, Optional.of(0.0), Optional.of(0.0));
  }

  /** Returns the length of one piece as it is played: what is cut of it left out. */
  public static Length of(Piece piece, Measure measure) {
    if (piece.pickup() && !measure.upbeat()) {
      return none();
    }
    if (Holds.isPause(piece)) {
      return new Length(piece.count(), Optional.of(0.0), Optional.of(0.0), held(piece));
    }
    return of(piece, measure, piece.beatsCut(), false).with(held(piece));
  }

  private static List<String> held(Piece piece) {
    return Holds.of(piece).map(List::of).orElse(List.of());
  }

  /** Returns the same length with more on top. */
  public Length with(List<String> more) {
    return more.isEmpty() ? this : new Length(bars, beats, seconds, both(plus, more));
  }

  private static List<String> both(List<String> some, List<String> more) {
    if (some.isEmpty() || more.isEmpty()) {
      return some.isEmpty() ? more : some;
    }
    Set<String> all = new LinkedHashSet<>(some);
    all.addAll(more);
    return List.copyOf(all);
  }

  /** Returns the length of what is cut of one piece: all of it, or some beats. */
  public static Length ofCut(Piece piece, Measure measure) {
    if (piece.pickup() && !measure.upbeat()) {
      return none();
    }
    return piece.cut() ? of(piece, measure, 0, false) : of(piece, measure, piece.beatsCut(), true);
  }

  private static Length of(Piece piece, Measure measure, double units, boolean onlyThese) {
    if (measure.quarters().isEmpty()) {
      return new Length(onlyThese ? 0 : piece.bars(), Optional.empty(), Optional.empty());
    }
    double whole = measure.quarters().getAsDouble() * piece.count();
    double named = units * measure.quartersPerUnit();
    double quarters = onlyThese ? named : whole - named;
    double beats = whole == 0 ? 0 : measure.beats() * piece.count() * quarters / whole;
    Optional<Double> seconds =
        measure.perMinute().isPresent()
            ? Optional.of(quarters * 60 / measure.perMinute().getAsDouble())
            : Optional.empty();
    return new Length(onlyThese ? 0 : piece.bars(), Optional.of(beats), seconds);
  }

  /** Returns both together; unknown where one is unknown. */
  public Length plus(Length other) {
    return new Length(
        bars + other.bars,
        beats.flatMap(b -> other.beats.map(o -> b + o)),
        seconds.flatMap(s -> other.seconds.map(o -> s + o)),
        both(plus, other.plus));
  }

  /** Returns the same bars, of which nobody knows how long they last. */
  public Length unmeasured() {
    return new Length(bars, Optional.empty(), Optional.empty(), plus);
  }

  /** Returns the sum of all. */
  public static Length sum(List<Length> lengths) {
    return lengths.stream().reduce(none(), Length::plus);
  }

  /** Returns the length with beats to a hundredth and seconds to a tenth, as it is written. */
  public Length rounded() {
    return new Length(
        bars, beats.map(b -> Figures.hundredths(b)), seconds.map(s -> Figures.hundredths(s)), plus);
  }
}
