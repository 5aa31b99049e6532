package org.barmap.sheet;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.barmap.plan.KeptNote;

/** Words kept as they were said, with the day they were said. */
final class NoteLines {
  private NoteLines() {}

  /** Returns what it is: a note, or a misprint, by which the print is not to be believed. */
  static String kind(KeptNote note) {
    return note.errata() ? "Misprint" : "Note";
  }

  /** Writes the notes of one number; of the whole show where the label is empty. */
  static void write(Flow flow, List<KeptNote> notes, String number) throws IOException {
    for (KeptNote note : notes) {
      if (note.number().equals(number)) {
        List<String> facts = new ArrayList<>();
        note.bar().ifPresent(b -> facts.add("bar " + b));
        note.when().ifPresent(w -> facts.add(w.split("T", 2)[0]));
        String where = facts.isEmpty() ? "" : " (" + String.join(", ", facts) + ")";
        flow.indented(kind(note) + where + ": " + note.text(), 0);
      }
    }
  }
}
