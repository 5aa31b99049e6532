package org.barmap.edit.kind;

import com.fasterxml.jackson.annotation.JsonProperty;

/** A side of a bar. */
public enum Side {
  /** Its left side. */
  @JsonProperty("start")
  START,
  /** Its right side. */
  @JsonProperty("end")
  END
}
