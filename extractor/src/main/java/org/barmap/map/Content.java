package org.barmap.map;

import com.fasterxml.jackson.annotation.JsonProperty;

/** What the player does in a bar. */
public enum Content {
  /** Plays. */
  @JsonProperty("music")
  MUSIC,
  /** Rests for this one bar (also a bar of cue notes over a rest). */
  @JsonProperty("rest")
  REST,
  /** Rests for {@code count} bars. */
  @JsonProperty("multi-rest")
  MULTI_REST,
  /** Plays the bar before once more. */
  @JsonProperty("bar-repeat")
  BAR_REPEAT;

  /** Returns the word the format uses, for instance {@code music}. */
  public String word() {
    return name().toLowerCase(java.util.Locale.ROOT).replace('_', '-');
  }
}
