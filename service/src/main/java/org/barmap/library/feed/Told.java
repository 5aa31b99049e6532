package org.barmap.library.feed;

import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Arrays;
import java.util.Optional;

/** What a web hook can be told of. */
public enum Told {
  /** A book was checked: there is a new edition. */
  CHECKED("checked"),
  /** A book's map is of another revision. */
  CHANGED("changed"),
  /** The show's changes, or how the player turns and counts, are others. */
  PLAN_CHANGED("plan-changed"),
  /** Nothing happened; somebody wants to see whether it arrives. */
  TRIED("tried");

  private final String word;

  Told(String word) {
    this.word = word;
  }

  /** Returns the word used in JSON and in the store. */
  @JsonValue
  public String word() {
    return word;
  }

  /** Returns the one of a word. */
  public static Optional<Told> of(String word) {
    return Arrays.stream(values()).filter(t -> t.word.equals(word)).findFirst();
  }
}
