package org.barmap.edit.kind;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Stream;
import org.barmap.edit.draft.Draft;
import org.barmap.map.Key;
import org.barmap.map.Meter;

/**
 * Corrections of what is drawn at one bar and holds from there on: the meter until the next one,
 * the key until the next one or the end of the number.
 */
public sealed interface HeldCorrection<T> extends Correction {

  /** Returns the id of the bar entry. */
  String bar();

  /** Returns what is corrected. */
  Held<T> held();

  /** Returns what is wrong with the wanted value, one sentence each. */
  default List<String> problems() {
    return List.of();
  }

  /** Returns what holds from the bar on; unless something is drawn there, what held before it. */
  default Optional<T> from(Optional<T> before) {
    return before;
  }

  /** A correction of the meter. */
  sealed interface OfMeter extends HeldCorrection<Meter> {
    @Override
    default Held<Meter> held() {
      return Held.METER;
    }
  }

  /** A correction of the key. */
  sealed interface OfKey extends HeldCorrection<Key> {
    @Override
    default Held<Key> held() {
      return Held.KEY;
    }
  }

  /** A time signature is printed at its beginning. */
  record SetMeter(String bar, int beats, int unit) implements OfMeter {
    private static final Set<Integer> UNITS = Set.of(1, 2, 4, 8, 16, 32, 64);

    /** Reads an absent bar as the empty id. */
    public SetMeter {
      bar = OneBar.id(bar);
    }

    @Override
    public List<String> problems() {
      return beats < 1 || beats > 64 || !UNITS.contains(unit)
          ? List.of("A meter has 1 to 64 beats over 1, 2, 4, 8, 16, 32 or 64")
          : List.of();
    }

    @Override
    public Optional<Meter> from(Optional<Meter> before) {
      return Optional.of(new Meter(beats, unit, true));
    }

    @Override
    public String says(Draft draft) {
      return "Meter" + changed(this, draft, m -> m.beats() + "/" + m.unit());
    }
  }

  /** No time signature is printed at its beginning: the meter before it holds on. */
  record RemoveMeter(String bar) implements OfMeter {

    /** Reads an absent bar as the empty id. */
    public RemoveMeter {
      bar = OneBar.id(bar);
    }

    @Override
    public String says(Draft draft) {
      return "No meter printed at " + Saying.bar(draft, bar);
    }
  }

  /** A key signature is drawn at its beginning: sharps counted up, flats down. */
  record SetKey(String bar, Optional<Integer> fifths) implements OfKey {

    /** Reads absent keys as an unknown bar and an unknown key. */
    public SetKey {
      bar = OneBar.id(bar);
      fifths = fifths == null ? Optional.empty() : fifths;
    }

    @Override
    public List<String> problems() {
      return fifths.filter(f -> f >= -Key.MOST && f <= Key.MOST).isEmpty()
          ? List.of("A key has 0 to 7 sharps, or 1 to 7 flats")
          : List.of();
    }

    @Override
    public Optional<Key> from(Optional<Key> before) {
      return fifths.map(f -> new Key(f, true));
    }

    @Override
    public String says(Draft draft) {
      return "Key" + changed(this, draft, Key::says);
    }
  }

  /** No key signature is drawn at its beginning: the key before it holds on. */
  record RemoveKey(String bar) implements OfKey {

    /** Reads an absent bar as the empty id. */
    public RemoveKey {
      bar = OneBar.id(bar);
    }

    @Override
    public String says(Draft draft) {
      return "No key drawn at " + Saying.bar(draft, bar);
    }
  }

  /** Refuses an unknown bar and a value out of range. */
  @Override
  default List<String> validate(Draft draft) {
    return Stream.concat(
            OneBar.refusals(draft, bar(), b -> List.of()).stream(), problems().stream())
        .toList();
  }

  /** Sets the value and carries it on to where the next one is drawn, or it ends. */
  @Override
  default Draft applyTo(Draft draft) {
    return held().corrected(draft, bar(), this::from);
  }

  /** Says where it is, what it was and what it is from now on. */
  private static <T> String changed(HeldCorrection<T> now, Draft draft, Function<T, String> shown) {
    Optional<T> was = draft.map().bar(now.bar()).flatMap(now.held().of());
    return " at "
        + Saying.bar(draft, now.bar())
        + ": "
        + was.map(shown).orElse("?")
        + " → "
        + now.from(Optional.empty()).map(shown).orElse("?");
  }
}
