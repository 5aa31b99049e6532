package org.barmap.plan.change.effect;

import java.util.Optional;
import java.util.OptionalInt;

/**
 * What a change puts into force at its first bar. The number of beats holds in the bars of the
 * change, all else until something else is said; a component is empty where the change leaves it as
 * it was.
 *
 * @param tempo how fast
 * @param beats how many beats the director shows in a bar
 * @param fifths key: sharps counted up, flats counted down
 * @param instrument what the player takes up, as it was said
 * @param grip how it is held and played
 */
public record InForce(
    Optional<TempoSet> tempo,
    OptionalInt beats,
    OptionalInt fifths,
    Optional<String> instrument,
    Optional<Grip> grip) {

  /** Leaves everything as it was. */
  public static final InForce NOTHING =
      new InForce(
          Optional.empty(),
          OptionalInt.empty(),
          OptionalInt.empty(),
          Optional.empty(),
          Optional.empty());

  /** Returns a tempo. */
  public static InForce tempo(TempoSet tempo) {
    return new InForce(
        Optional.of(tempo), NOTHING.beats, NOTHING.fifths, NOTHING.instrument, NOTHING.grip);
  }

  /** Returns a number of beats to a bar. */
  public static InForce beats(int beats) {
    return new InForce(
        NOTHING.tempo, OptionalInt.of(beats), NOTHING.fifths, NOTHING.instrument, NOTHING.grip);
  }

  /** Returns a key. */
  public static InForce key(int fifths) {
    return new InForce(
        NOTHING.tempo, NOTHING.beats, OptionalInt.of(fifths), NOTHING.instrument, NOTHING.grip);
  }

  /** Returns an instrument. */
  public static InForce instrument(String name) {
    return new InForce(
        NOTHING.tempo, NOTHING.beats, NOTHING.fifths, Optional.of(name), NOTHING.grip);
  }

  /** Returns a way to hold or play the instrument. */
  public static InForce grip(Grip grip) {
    return new InForce(
        NOTHING.tempo, NOTHING.beats, NOTHING.fifths, NOTHING.instrument, Optional.of(grip));
  }

  /**
   * Returns what a player is told where a later change of the same bars says something else; with
   * "is", "has" or "asks" first.
   */
  public Optional<String> clash(InForce later) {
    if (differ(tempo, later.tempo)) {
      return Optional.of("has two tempi; the later change holds.");
    }
    if (fifths.isPresent() && later.fifths.isPresent() && !fifths.equals(later.fifths)) {
      return Optional.of("has two keys; the later change holds.");
    }
    if (beats.isPresent() && later.beats.isPresent() && !beats.equals(later.beats)) {
      return Optional.of(
          "is in "
              + beats.getAsInt()
              + " and in "
              + later.beats.getAsInt()
              + "; the later change holds.");
    }
    return instrument
        .filter(i -> later.instrument.filter(j -> !i.equalsIgnoreCase(j)).isPresent())
        .map(i -> "asks for " + i + " and for " + later.instrument.orElse("") + ".");
  }

  private static <T> boolean differ(Optional<T> a, Optional<T> b) {
    return a.isPresent() && b.isPresent() && !a.equals(b);
  }
}
