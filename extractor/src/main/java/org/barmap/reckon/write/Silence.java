package org.barmap.reckon.write;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;
import org.barmap.map.Meter;
import org.barmap.reckon.set.ReckonSettings;
import org.barmap.reckon.set.WriteSettings;
import org.barmap.sign.kind.Sound;

/**
 * How long the player is silent at the start and at the end of a bar with music, from the rests
 * before its first note and after its last one.
 *
 * <p>A page turn may hang on it, so nothing is claimed where anything is in doubt: a rest of
 * unknown value, a weak one, a bar without a note, more rests than the bar holds.
 */
final class Silence {

  private static final WriteSettings.Silences SET = ReckonSettings.STANDARD.write().silences();

  /** Quarter notes in a whole one. */
  private static final int WHOLE = 4;

  private final List<Sound> sounds;
  private final Meter meter;

  private Silence(List<Sound> sounds, Meter meter) {
    this.sounds = sounds;
    this.meter = meter;
  }

  /**
   * Returns the silence of one bar.
   *
   * @param sounds all notes and rests of the system
   * @param from left side of the bar, staff spaces
   * @param to right side
   * @param meter in force
   */
  static Silence in(List<Sound> sounds, double from, double to, Meter meter) {
    return new Silence(
        sounds.stream()
            .filter(s -> s.at() > from + SET.besideLine() && s.at() < to - SET.besideLine())
            .sorted(Comparator.comparingDouble(Sound::at))
            .toList(),
        meter);
  }

  /** Beats of silence before the first note; empty for none and for unknown. */
  Optional<Double> start() {
    return beats(sounds);
  }

  /** Beats of silence after the last note; empty for none and for unknown. */
  Optional<Double> end() {
    return beats(sounds.stream().sorted(Comparator.comparingDouble(s -> -s.at())).toList());
  }

  private Optional<Double> beats(List<Sound> towardsNotes) {
    if (towardsNotes.stream().noneMatch(Sound::note)) {
      return Optional.empty();
    }
    Predicate<Sound> rest = s -> !s.note();
    List<Sound> rests = towardsNotes.stream().takeWhile(rest).toList();
    boolean unsure =
        rests.stream().anyMatch(s -> s.probability() < SET.sureRest() || s.quarters().isEmpty());
    double quarters = rests.stream().mapToDouble(s -> s.quarters().orElse(0.0)).sum();
    return rests.isEmpty() || unsure || quarters >= meter.quarters()
        ? Optional.empty()
        : Optional.of(quarters * meter.unit() / WHOLE);
  }
}
