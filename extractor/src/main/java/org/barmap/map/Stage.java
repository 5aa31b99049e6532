package org.barmap.map;

import com.fasterxml.jackson.annotation.JsonProperty;

/** The step of the reading in which something was found. */
public enum Stage {
  /** Opening the file. */
  @JsonProperty("file")
  FILE,
  /** Making the page upright. */
  @JsonProperty("page")
  PAGE,
  /** Finding staves and systems. */
  @JsonProperty("staff")
  STAFF,
  /** Finding signs and reading numerals and words. */
  @JsonProperty("sign")
  SIGN,
  /** Counting bars and settling contradictions. */
  @JsonProperty("reckon")
  RECKON,
  /** Computing order of play and turns. */
  @JsonProperty("plan")
  PLAN;

  /** Returns the word the format uses, for instance {@code file}. */
  public String word() {
    return name().toLowerCase(java.util.Locale.ROOT).replace('_', '-');
  }
}
