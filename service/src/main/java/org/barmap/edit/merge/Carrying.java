package org.barmap.edit.merge;

import java.util.Set;
import org.barmap.edit.draft.Aspect;
import org.barmap.map.Bar;
import org.barmap.map.BarBuilder;

/** Carries what a person set of a bar entry over to its new reading. */
public final class Carrying {

  private Carrying() {}

  /** Returns the new reading with every part a person set taken from the old entry. */
  public static Bar over(Bar old, Bar read, Set<Aspect> set) {
    if (set.isEmpty()) {
      return read;
    }
    BarBuilder made = read.toBuilder();
    for (Aspect aspect : set) {
      carry(made, old, aspect);
    }
    return made.origin(old.origin()).confidence(old.confidence()).build();
  }

  private static void carry(BarBuilder made, Bar old, Aspect aspect) {
    switch (aspect) {
      case COUNT -> made.count(old.count());
      case CONTENT -> made.content(old.content());
      case REHEARSAL -> made.rehearsal(old.rehearsal());
      case METER -> made.meter(old.meter());
      case KEY -> made.key(old.key());
      case SILENT_START -> made.silentStart(old.silentStart());
      case SILENT_END -> made.silentEnd(old.silentEnd());
      case NUMBER -> made.number(old.number());
      case LABEL -> made.label(old.label());
      case START_BARLINE -> made.startBarline(old.startBarline());
      case END_BARLINE -> made.endBarline(old.endBarline());
      case ENDING -> made.ending(old.ending());
      case SIGNS -> made.signs(old.signs());
      case TIMES -> made.times(old.times());
      case WORDS -> made.words(old.words());
      case SHAPE -> made.outline(old.outline());
      case NUMBER_START -> {
        // it stands in the list of musical numbers
      }
    }
  }
}
