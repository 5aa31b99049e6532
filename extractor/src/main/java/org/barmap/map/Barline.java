package org.barmap.map;

import com.fasterxml.jackson.annotation.JsonProperty;

/** How a barline is drawn; a double or repeat barline is one barline. */
public enum Barline {
  /** Nothing is drawn. */
  @JsonProperty("none")
  NONE,
  /** One thin line. */
  @JsonProperty("single")
  SINGLE,
  /** Two thin lines. */
  @JsonProperty("double")
  DOUBLE,
  /** A thin and a thick line. */
  @JsonProperty("final")
  FINAL,
  /** A forward repeat. */
  @JsonProperty("repeat-start")
  REPEAT_START,
  /** A backward repeat. */
  @JsonProperty("repeat-end")
  REPEAT_END,
  /** A backward and a forward repeat in one. */
  @JsonProperty("repeat-both")
  REPEAT_BOTH,
  /** A dashed or dotted line. */
  @JsonProperty("dashed")
  DASHED;

  /** Tells whether it ends a repeat: it sends the player back. */
  public boolean endsRepeat() {
    return this == REPEAT_END || this == REPEAT_BOTH;
  }

  /** Tells whether a repeat begins after it. */
  public boolean startsRepeat() {
    return this == REPEAT_START || this == REPEAT_BOTH;
  }

  /** Returns the word the format uses, for instance {@code none}. */
  public String word() {
    return name().toLowerCase(java.util.Locale.ROOT).replace('_', '-');
  }
}
