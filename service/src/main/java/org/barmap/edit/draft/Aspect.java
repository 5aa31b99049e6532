package org.barmap.edit.draft;

import com.fasterxml.jackson.annotation.JsonProperty;

/** What of a bar entry a person has set, so that no later reading touches it. */
public enum Aspect {
  /** How many bars it stands for. */
  @JsonProperty("count")
  COUNT,
  /** What the player does in it. */
  @JsonProperty("content")
  CONTENT,
  /** The rehearsal mark, or that there is none. */
  @JsonProperty("rehearsal")
  REHEARSAL,
  /** The meter, or that none is printed. */
  @JsonProperty("meter")
  METER,
  /** The key, or that none is drawn. */
  @JsonProperty("key")
  KEY,
  /** How many beats are free before its first note. */
  @JsonProperty("silent-start")
  SILENT_START,
  /** How many beats are free after its last note. */
  @JsonProperty("silent-end")
  SILENT_END,
  /** The bar number. */
  @JsonProperty("number")
  NUMBER,
  /** What it is called instead of a number. */
  @JsonProperty("label")
  LABEL,
  /** The type of the barline at its left. */
  @JsonProperty("start-barline")
  START_BARLINE,
  /** The type of the barline at its right. */
  @JsonProperty("end-barline")
  END_BARLINE,
  /** The endings it lies under. */
  @JsonProperty("ending")
  ENDING,
  /** Its navigation signs. */
  @JsonProperty("signs")
  SIGNS,
  /** How often it is played. */
  @JsonProperty("times")
  TIMES,
  /** Its words. */
  @JsonProperty("words")
  WORDS,
  /** Where it begins and ends on the page. */
  @JsonProperty("shape")
  SHAPE,
  /** That a musical number starts here, or does not. */
  @JsonProperty("number-start")
  NUMBER_START
}
