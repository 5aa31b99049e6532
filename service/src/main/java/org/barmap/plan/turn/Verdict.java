package org.barmap.plan.turn;

import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Locale;

/** Whether there is time; what is worse stands later. */
public enum Verdict {
  /** Enough. */
  TIME,
  /** Enough if it is done quickly. */
  QUICK,
  /** It hangs on something nobody knows beforehand: a tempo, a hold, a cue. */
  UNKNOWN,
  /** Not enough. */
  NONE;

  /** Returns the word the format uses. */
  @JsonValue
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }
}
