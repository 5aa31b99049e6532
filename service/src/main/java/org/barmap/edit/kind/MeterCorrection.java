package org.barmap.edit.kind;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.barmap.edit.draft.Draft;
import org.barmap.map.Bar;
import org.barmap.map.Meter;

/** Corrections of the meter, which holds until the next one. */
public sealed interface MeterCorrection extends Correction {

  /** Returns the id of the bar entry. */
  String bar();

  /** Returns the meter in force from the bar on, given the one before it. */
  Optional<Meter> meter(Optional<Meter> before);

  /** A signature is printed at its beginning. */
  record SetMeter(String bar, int beats, int unit) implements MeterCorrection {
    private static final Set<Integer> UNITS = Set.of(1, 2, 4, 8, 16, 32, 64);

    /** Reads an absent bar as the empty id. */
    public SetMeter {
      bar = OneBar.id(bar);
    }

    @Override
    public List<String> validate(Draft draft) {
      List<String> problems = new ArrayList<>(MeterCorrection.super.validate(draft));
      if (beats < 1 || beats > 64 || !UNITS.contains(unit)) {
        problems.add("A meter has 1 to 64 beats over 1, 2, 4, 8, 16, 32 or 64");
      }
      return problems;
    }

    @Override
    public Optional<Meter> meter(Optional<Meter> before) {
      return Optional.of(new Meter(beats, unit, true));
    }

    @Override
    public String says(Draft draft) {
      String was =
          draft.map().bar(bar).flatMap(Bar::meter).map(m -> m.beats() + "/" + m.unit()).orElse("?");
      return "Meter at " + Saying.bar(draft, bar) + ": " + was + " → " + beats + "/" + unit;
    }
  }

  /** No signature is printed at its beginning: the meter before it holds on. */
  record RemoveMeter(String bar) implements MeterCorrection {

    /** Reads an absent bar as the empty id. */
    public RemoveMeter {
      bar = OneBar.id(bar);
    }

    @Override
    public Optional<Meter> meter(Optional<Meter> before) {
      return before;
    }

    @Override
    public String says(Draft draft) {
      return "No meter printed at " + Saying.bar(draft, bar);
    }
  }

  @Override
  default List<String> validate(Draft draft) {
    return OneBar.unknown(draft, bar());
  }

  /** Sets the meter and carries it on to the next printed signature. */
  @Override
  default Draft applyTo(Draft draft) {
    return Held.METER.corrected(draft, bar(), this::meter);
  }
}
