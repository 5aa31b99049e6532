package org.barmap.edit.kind;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.edit.draft.Draft;
import org.barmap.map.Bar;
import org.barmap.map.Key;

/** Corrections of the key signature, which holds until the next one or the end of the number. */
public sealed interface KeyCorrection extends Correction {

  /** Returns the id of the bar entry. */
  String bar();

  /** Returns the key in force from the bar on, given the one before it. */
  Optional<Key> key(Optional<Key> before);

  /** A signature is drawn at its beginning: sharps counted up, flats down. */
  record SetKey(String bar, Optional<Integer> fifths) implements KeyCorrection {

    /** Reads absent keys as an unknown bar and an unknown key. */
    public SetKey {
      bar = OneBar.id(bar);
      fifths = fifths == null ? Optional.empty() : fifths;
    }

    @Override
    public List<String> validate(Draft draft) {
      List<String> problems = new ArrayList<>(KeyCorrection.super.validate(draft));
      if (fifths.filter(f -> f >= -Key.MOST && f <= Key.MOST).isEmpty()) {
        problems.add("A key has 0 to 7 sharps, or 1 to 7 flats");
      }
      return problems;
    }

    @Override
    public Optional<Key> key(Optional<Key> before) {
      return fifths.map(f -> new Key(f, true));
    }

    @Override
    public String says(Draft draft) {
      String was = draft.map().bar(bar).flatMap(Bar::key).map(Key::says).orElse("?");
      return "Key at "
          + Saying.bar(draft, bar)
          + ": "
          + was
          + " → "
          + fifths.map(f -> new Key(f, true).says()).orElse("?");
    }
  }

  /** No signature is drawn at its beginning: the key before it holds on. */
  record RemoveKey(String bar) implements KeyCorrection {

    /** Reads an absent bar as the empty id. */
    public RemoveKey {
      bar = OneBar.id(bar);
    }

    @Override
    public Optional<Key> key(Optional<Key> before) {
      return before;
    }

    @Override
    public String says(Draft draft) {
      return "No key drawn at " + Saying.bar(draft, bar);
    }
  }

  @Override
  default List<String> validate(Draft draft) {
    return OneBar.unknown(draft, bar());
  }

  /** Sets the key and carries it on to the next signature drawn, or to the end of the number. */
  @Override
  default Draft applyTo(Draft draft) {
    return Held.KEY.corrected(draft, bar(), this::key);
  }
}
