package org.barmap.plan.change.term;

import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** What a player wants to be reminded of at a bar. */
public enum Reminder {
  /** Look up at the director. */
  WATCH,
  /** Something to listen for. */
  CUE,
  /** Ahead of the beat. */
  PUSH,
  /** Behind the beat. */
  PULL,
  /** Take the bow, arco. */
  BOW,
  /** Plucked. */
  PIZZ,
  /** Put the mute on or take it off. */
  MUTE,
  /** Use the low extension. */
  EXTENSION,
  /** Something missed before: an accidental, a fingering. */
  MISSED,
  /** Anything else; the note says it. */
  TEXT;

  /** Returns the word the format uses. */
  @JsonValue
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** Returns the reminder a word of the format stands for. */
  public static Optional<Reminder> of(String word) {
    return Arrays.stream(values()).filter(r -> r.word().equals(word)).findFirst();
  }

  /**
   * Returns the sign a player writes for it, in letters a page and a screen can show.
   *
   * @param note the player's own words
   */
  public String sign(Optional<String> note) {
    String words = note.map(n -> ": " + n).orElse("");
    return switch (this) {
      case WATCH -> "glasses (watch)" + words;
      case CUE -> "cue" + words;
      case PUSH -> "arrow on (push)" + words;
      case PULL -> "wavy line (pull back)" + words;
      case BOW -> "arco" + words;
      case PIZZ -> "pizz." + words;
      case MUTE -> note.orElse("mute");
      case EXTENSION -> "ext." + words;
      case MISSED, TEXT -> note.orElse("!");
    };
  }
}
