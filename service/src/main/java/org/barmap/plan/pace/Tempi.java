package org.barmap.plan.pace;

import java.util.Optional;
import java.util.OptionalDouble;
import org.barmap.map.Meter;
import org.barmap.plan.change.term.Figures;
import org.barmap.plan.change.term.Metronome;
import org.barmap.plan.change.term.NoteValues;
import org.barmap.plan.change.term.TempoWords;

/**
 * The tempo in force, in quarters a minute, and those the words can go back to: the steady one
 * before a rit. or free bars, and the first of the number. Each is empty where nobody knows it;
 * going back to an unknown one makes the tempo unknown.
 */
final class Tempi {
  private OptionalDouble now = OptionalDouble.empty();
  private OptionalDouble steady = OptionalDouble.empty();
  private OptionalDouble first = OptionalDouble.empty();
  private boolean firstSaid;

  /** The first tempo was said at the bar that is looked at: a change there says another one. */
  private boolean firstHere;

  OptionalDouble now() {
    return now;
  }

  /** Lets the tempo of the number before hold on; it is not the first one of this number. */
  void holdOn(OptionalDouble before) {
    now = before;
    steady = before;
  }

  /** Goes on to the next bar. */
  void nextBar() {
    firstHere = false;
  }

  /** Puts a known tempo into force. */
  void set(double perMinute, boolean opening) {
    all(OptionalDouble.of(perMinute));
    if (opening || firstHere) {
      first = now;
    }
  }

  /** Does what words say; a figure is {@link #set}. */
  void say(TempoWords words, Optional<Meter> before, Optional<Meter> meter) {
    switch (words.kind()) {
      case FIGURE -> set(words.figure().orElseThrow(), false);
      case TWICE -> times(2);
      case HALF -> times(0.5);
      case RELATION -> times(words.relation().orElseThrow().factor(before, meter));
      case SAME -> {
        if (!sameBeat(before, meter)) {
          all(OptionalDouble.empty());
        }
      }
      case BACK -> now = steady;
      case FIRST -> all(first);
      case SLOWING, QUICKENING -> now = OptionalDouble.empty();
      case FREE -> {
        now = OptionalDouble.empty();
        firstSaid = true;
      }
      case OTHER -> all(OptionalDouble.empty());
      case NONE -> {}
    }
  }

  private void times(double factor) {
    all(now.isPresent() ? OptionalDouble.of(now.getAsDouble() * factor) : now);
  }

  private void all(OptionalDouble tempo) {
    now = tempo;
    steady = tempo;
    if (!firstSaid) {
      first = tempo;
      firstSaid = true;
      firstHere = true;
    }
  }

  /** "L'istesso tempo" keeps the beat: in another kind of meter that is another note. */
  private static boolean sameBeat(Optional<Meter> before, Optional<Meter> meter) {
    if (before.isEmpty() || meter.isEmpty()) {
      return before.isEmpty() == meter.isEmpty();
    }
    double old = Metronome.quarters(NoteValues.beatOf(before));
    return Math.abs(old - Metronome.quarters(NoteValues.beatOf(meter))) < Figures.SAME;
  }
}
