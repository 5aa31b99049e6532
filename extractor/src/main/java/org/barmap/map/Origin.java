package org.barmap.map;

import com.fasterxml.jackson.annotation.JsonProperty;

/** Where the present content of an entry comes from. */
public enum Origin {
  /** Read from the page. */
  @JsonProperty("read")
  READ,
  /** Worked out by bar arithmetic. */
  @JsonProperty("inferred")
  INFERRED,
  /** Set by a person. */
  @JsonProperty("corrected")
  CORRECTED,
  /** Confirmed by a person. */
  @JsonProperty("verified")
  VERIFIED;

  /** Returns the word the format uses, for instance {@code read}. */
  public String word() {
    return name().toLowerCase(java.util.Locale.ROOT).replace('_', '-');
  }
}
