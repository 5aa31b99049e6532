package org.barmap.plan.change.term;

import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Locale;

/** How a vamp is left when the cue comes. */
public enum Leave {
  /** At once, wherever the vamp is. */
  ANY_TIME,
  /** When the pass under way is over. */
  END_OF_PASS;

  /** Returns the word the format uses. */
  @JsonValue
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }
}
