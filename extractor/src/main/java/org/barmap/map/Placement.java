package org.barmap.map;

import com.fasterxml.jackson.annotation.JsonProperty;

/** Where words stand. */
public enum Placement {
  /** Over the staff. */
  @JsonProperty("above")
  ABOVE,
  /** Under the staff. */
  @JsonProperty("below")
  BELOW;

  /** Returns the word the format uses, for instance {@code above}. */
  public String word() {
    return name().toLowerCase(java.util.Locale.ROOT).replace('_', '-');
  }
}
