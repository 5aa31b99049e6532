package org.barmap.map;

import com.fasterxml.jackson.annotation.JsonProperty;

/** How much a finding matters. */
public enum Severity {
  /** Good to know. */
  @JsonProperty("info")
  INFO,
  /** Worth a look: the reading may be wrong. */
  @JsonProperty("doubt")
  DOUBT,
  /** Something can't be right or could not be read. */
  @JsonProperty("error")
  ERROR;

  /** Returns the word the format uses, for instance {@code info}. */
  public String word() {
    return name().toLowerCase(java.util.Locale.ROOT).replace('_', '-');
  }
}
