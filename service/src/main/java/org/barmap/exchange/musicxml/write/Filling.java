package org.barmap.exchange.musicxml.write;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import org.audiveris.proxymusic.Articulations;
import org.audiveris.proxymusic.EmptyPlacement;
import org.audiveris.proxymusic.Fermata;
import org.audiveris.proxymusic.Notations;
import org.audiveris.proxymusic.Note;
import org.audiveris.proxymusic.NoteType;
import org.audiveris.proxymusic.ObjectFactory;
import org.audiveris.proxymusic.Rest;
import org.audiveris.proxymusic.Step;
import org.audiveris.proxymusic.Unpitched;
import org.audiveris.proxymusic.YesNo;
import org.barmap.map.Bar;

/**
 * What fills a bar with time: a rest, or notes that are neither drawn nor pitched where the player
 * plays what the map doesn't know. An undrawn rest would do as well, but programs take it for a bar
 * of rest and draw several of them as a multi-bar rest.
 */
final class Filling {
  /** Divisions of a quarter: fine enough for a unit of 64. */
  static final int DIVISIONS = 16;

  private static final int[] LENGTHS = {96, 64, 48, 32, 24, 16, 12, 8, 6, 4, 3, 2, 1};
  private static final String[] TYPES = {
    "whole", "whole", "half", "half", "quarter", "quarter", "eighth", "eighth", "16th", "16th",
    "32nd", "32nd", "64th"
  };
  private static final ObjectFactory FACTORY = new ObjectFactory();

  private Filling() {}

  /** Returns what fills one bar of an entry, with what is held at its beginning and its end. */
  static List<Note> of(Bar bar, boolean fermata, boolean caesura) {
    int units = bar.meter().map(m -> DIVISIONS * 4 * m.beats() / m.unit()).orElse(DIVISIONS * 4);
    List<Note> notes = bar.isRest() ? List.of(rest(units)) : undrawn(units);
    if (fermata) {
      notations(notes.get(0)).getTiedOrSlurOrTuplet().add(new Fermata());
    }
    if (caesura) {
      Articulations marks = FACTORY.createArticulations();
      marks
          .getAccentOrStrongAccentOrStaccato()
          .add(FACTORY.createArticulationsCaesura(FACTORY.createCaesura()));
      notations(notes.get(notes.size() - 1)).getTiedOrSlurOrTuplet().add(marks);
    }
    return notes;
  }

  private static Notations notations(Note note) {
    if (note.getNotations().isEmpty()) {
      note.getNotations().add(new Notations());
    }
    return note.getNotations().get(0);
  }

  private static Note rest(int units) {
    Rest rest = new Rest();
    rest.setMeasure(YesNo.YES);
    Note note = lasting(units);
    note.setRest(rest);
    return note;
  }

  private static List<Note> undrawn(int units) {
    List<Note> notes = new ArrayList<>();
    int left = units;
    for (int i = 0; i < LENGTHS.length; i++) {
      while (left >= LENGTHS[i]) {
        notes.add(undrawn(LENGTHS[i], TYPES[i], LENGTHS[i] % 3 == 0));
        left -= LENGTHS[i];
      }
    }
    return notes;
  }

  private static Note undrawn(int units, String type, boolean dotted) {
    Note note = lasting(units);
    Unpitched unpitched = new Unpitched();
    // the middle line, where a program draws it after all
    unpitched.setDisplayStep(Step.B);
    unpitched.setDisplayOctave(4);
    note.setUnpitched(unpitched);
    NoteType named = new NoteType();
    named.setValue(type);
    note.setType(named);
    if (dotted) {
      note.getDot().add(new EmptyPlacement());
    }
    note.setPrintObject(YesNo.NO);
    return note;
  }

  /** The voice is named because programs that find none lose the order of what stands in a bar. */
  private static Note lasting(int units) {
    Note note = new Note();
    note.setDuration(BigDecimal.valueOf(units));
    note.setVoice("1");
    return note;
  }
}
