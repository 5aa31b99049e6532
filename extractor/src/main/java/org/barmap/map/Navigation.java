package org.barmap.map;

import com.fasterxml.jackson.annotation.JsonProperty;

/** Signs and words that steer the order of play, or hold it. */
public enum Navigation {
  /** The sign a D.S. goes back to; counts at the start of its bar. */
  @JsonProperty("segno")
  SEGNO,
  /** The start of the coda; counts at the start of its bar. */
  @JsonProperty("coda")
  CODA,
  /** The end after a D.C. or D.S. al Fine; counts at the end of its bar. */
  @JsonProperty("fine")
  FINE,
  /** Back to the start; counts at the end of its bar. */
  @JsonProperty("da-capo")
  DA_CAPO,
  /** Back to the segno; counts at the end of its bar. */
  @JsonProperty("dal-segno")
  DAL_SEGNO,
  /** On to the coda, after a D.C. or D.S.; counts at the end of its bar. */
  @JsonProperty("to-coda")
  TO_CODA,
  /** A hold. */
  @JsonProperty("fermata")
  FERMATA,
  /** A stop until the cue. */
  @JsonProperty("caesura")
  CAESURA;

  /** Returns the word the format uses, for instance {@code segno}. */
  public String word() {
    return name().toLowerCase(java.util.Locale.ROOT).replace('_', '-');
  }
}
