package org.barmap.plan.change.term;

import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Locale;

/** How one number follows the one before; the nearer two numbers are, the later it stands. */
public enum Link {
  /** Nothing says so. */
  UNKNOWN,
  /** Dialogue or a scene in between. */
  BREAK,
  /** After the applause. */
  APPLAUSE_SEGUE,
  /** On cue. */
  SEGUE,
  /** In time on the next downbeat. */
  SEGUE_AS_ONE,
  /** At once, no dialogue in between. */
  ATTACCA;

  /** Returns the word the format uses. */
  @JsonValue
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** Tells whether nothing lies between the two numbers. */
  public boolean joined() {
    return this == ATTACCA || this == SEGUE_AS_ONE;
  }

  /** Returns what a player writes and says for it. */
  public String says() {
    return switch (this) {
      case UNKNOWN -> "not known";
      case BREAK -> "no segue";
      case APPLAUSE_SEGUE -> "applause segue";
      case SEGUE -> "segue";
      case SEGUE_AS_ONE -> "segue as one";
      case ATTACCA -> "attacca";
    };
  }
}
