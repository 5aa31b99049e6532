package org.barmap.map;

import com.fasterxml.jackson.annotation.JsonProperty;

/** What is drawn around a rehearsal mark. */
public enum Enclosure {
  /** A rectangle. */
  @JsonProperty("box")
  BOX,
  /** A circle. */
  @JsonProperty("circle")
  CIRCLE,
  /** Nothing. */
  @JsonProperty("none")
  NONE;

  /** Returns the word the format uses, for instance {@code box}. */
  public String word() {
    return name().toLowerCase(java.util.Locale.ROOT).replace('_', '-');
  }
}
