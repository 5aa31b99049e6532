package org.barmap.plan.page;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** How the first page of a book lies, and with it all others. */
public enum FirstPage {
  /** On the right, as page 1 of a bound book. */
  RIGHT,
  /** On the left. */
  LEFT,
  /** Nothing is bound: one sheet at a time. */
  SINGLE_SHEETS;

  /** Returns the word the format uses. */
  @JsonValue
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** Returns what a word says; also the words of plans before there was this one. */
  public static Optional<FirstPage> of(String word) {
    return switch (word) {
      case "odd-right" -> Optional.of(RIGHT);
      case "odd-left" -> Optional.of(LEFT);
      default -> Arrays.stream(values()).filter(f -> f.word().equals(word)).findFirst();
    };
  }

  /** Returns what a word says. */
  @JsonCreator
  static FirstPage read(String word) {
    return of(word)
        .orElseThrow(
            () -> new IllegalArgumentException("the first page is no \"" + word + "\" one"));
  }

  /** Returns the word that said the same before there was this one. */
  public String binding() {
    return switch (this) {
      case RIGHT -> "odd-right";
      case LEFT -> "odd-left";
      case SINGLE_SHEETS -> word();
    };
  }
}
