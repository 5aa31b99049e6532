package org.barmap.edit;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
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
      return before.map(m -> m.withPrinted(false));
    }

    @Override
    public String says(Draft draft) {
      return "No meter printed at " + Saying.bar(draft, bar);
    }
  }

  @Override
  default List<String> validate(Draft draft) {
    return draft.map().bar(bar()).isPresent()
        ? List.of()
        : List.of("There is no bar with the id " + OneBar.shown(bar()));
  }

  /** Sets the meter and carries it on to the next printed signature. */
  @Override
  default Draft applyTo(Draft draft) {
    List<Bar> bars = new ArrayList<>(draft.map().bars());
    int at = draft.map().indexOf(bar());
    Bar first = bars.get(at);
    boolean continues = at > 0;
    Optional<Meter> now = meter(continues ? bars.get(at - 1).meter() : Optional.empty());
    bars.set(at, OneBar.corrected(first.toBuilder().meter(now).build()));
    carry(bars, at, draft.settled(), Set.of());
    return draft.withBars(bars).with(draft.settled().with(bar(), EnumSet.of(Aspect.METER)));
  }

  /**
   * Carries a bar's meter on to the next printed signature.
   *
   * @param bars changed in place
   * @param at where the bar stands in them
   * @param kept ids of bars that stay as they are
   */
  static void carry(List<Bar> bars, int at, Settled settled, Set<String> kept) {
    Optional<Meter> held = bars.get(at).meter().map(m -> m.withPrinted(false));
    for (int i = at + 1; i < bars.size(); i++) {
      Bar b = bars.get(i);
      boolean own = b.meter().map(Meter::printed).orElse(false);
      if (own || settled.has(b.id(), Aspect.METER)) {
        return;
      }
      if (!Objects.equals(b.meter(), held) && !kept.contains(b.id())) {
        bars.set(i, b.toBuilder().meter(held).build());
      }
    }
  }
}
