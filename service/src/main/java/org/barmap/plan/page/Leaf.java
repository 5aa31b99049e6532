package org.barmap.plan.page;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** How a page belongs to its book. */
public enum Leaf {
  /** As all the others. */
  BOUND,
  /** On a single leaf that was laid in; it has its own front and back. */
  INSERTED,
  /** A copy on the stand beside the book. */
  LOOSE;

  /** Returns the word the format uses. */
  @JsonValue
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** Returns the kind of leaf a word names. */
  public static Optional<Leaf> of(String word) {
    return Arrays.stream(values()).filter(l -> l.word().equals(word)).findFirst();
  }

  /** Returns the kind of leaf a word names. */
  @JsonCreator
  static Leaf read(String word) {
    return of(word)
        .orElseThrow(() -> new IllegalArgumentException("no such leaf: \"" + word + "\""));
  }
}
