package org.barmap.edit.kind;

import com.fasterxml.jackson.annotation.JsonProperty;
import java.util.Optional;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.draft.Lookup;
import org.barmap.map.Bar;

/** A side of a bar. */
public enum Side {
  /** Its left side. */
  @JsonProperty("start")
  START,
  /** Its right side. */
  @JsonProperty("end")
  END;

  /** Returns a side as it was said; an absent one is the end. */
  static Side orEnd(Side said) {
    return said == null ? END : said;
  }

  /** Returns the side that a bar beside it shares with it. */
  Side other() {
    return this == END ? START : END;
  }

  /** Returns the bar beside a bar on this side, in the same system. */
  Optional<Bar> beside(Draft draft, Bar bar) {
    return this == END ? Lookup.after(draft, bar) : Lookup.before(draft, bar);
  }

  /** Returns where it is at a bar, as it is called in the history. */
  String of(String bar) {
    return (this == END ? "at the end of " : "at the start of ") + bar;
  }
}
