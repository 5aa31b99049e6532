package org.barmap.plan.change.effect;

import java.util.Optional;
import java.util.OptionalInt;
import org.barmap.map.Meter;
import org.barmap.map.Navigation;

/**
 * What a change puts into the book as if it were printed there; everything that reads the print
 * then reads it too.
 *
 * @param sign a sign at its first bar: a fermata, a caesura
 * @param word a word over its first bar: "rit."
 * @param meter a meter for its bars
 * @param semitones its bars are written so much higher, or lower
 * @param without what is printed in its first bar and not followed
 */
public record Put(
    Optional<Navigation> sign,
    Optional<String> word,
    Optional<Meter> meter,
    OptionalInt semitones,
    Optional<Printed> without) {

  /** Signs and words that a director may have left out. */
  public enum Printed {
    /** A D.C. or a D.S. */
    JUMP,
    /** The sign that sends one on to the coda. */
    CODA,
    /** A fermata or a caesura. */
    HOLD,
    /** A rit., an accel. and their like. */
    TEMPO
  }

  /** Returns what is printed and not followed. */
  public static Put without(Printed printed) {
    return new Put(
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        OptionalInt.empty(),
        Optional.of(printed));
  }

  /** Returns a sign. */
  public static Put sign(Navigation sign) {
    return new Put(
        Optional.of(sign),
        Optional.empty(),
        Optional.empty(),
        OptionalInt.empty(),
        Optional.empty());
  }

  /** Returns a word. */
  public static Put word(String word) {
    return new Put(
        Optional.empty(),
        Optional.of(word),
        Optional.empty(),
        OptionalInt.empty(),
        Optional.empty());
  }

  /** Returns a meter. */
  public static Put meter(Meter meter) {
    return new Put(
        Optional.empty(),
        Optional.empty(),
        Optional.of(meter),
        OptionalInt.empty(),
        Optional.empty());
  }

  /** Returns a transposition. */
  public static Put semitones(int semitones) {
    return new Put(
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        OptionalInt.of(semitones),
        Optional.empty());
  }
}
