package org.barmap.plan.change.term;

import java.util.Locale;
import java.util.OptionalInt;

/** Names of note values, American and British, as counts of a bar are told by them. */
public final class NoteNames {
  private NoteNames() {}

  /** Returns the share of a whole note, 8 for an eighth or a quaver; empty for other words. */
  public static OptionalInt unit(String word) {
    return switch (word.toLowerCase(Locale.ROOT).replaceFirst("s$", "")) {
      case "half", "minim" -> OptionalInt.of(2);
      case "quarter", "crotchet" -> OptionalInt.of(4);
      case "eighth", "quaver" -> OptionalInt.of(8);
      case "sixteenth", "semiquaver" -> OptionalInt.of(16);
      default -> OptionalInt.empty();
    };
  }

  /** Returns the name of the note that so many of make a whole one: "eighth" for 8. */
  public static String of(int unit) {
    return switch (unit) {
      case 2 -> "half";
      case 4 -> "quarter";
      case 8 -> "eighth";
      case 16 -> "sixteenth";
      default -> "beat";
    };
  }
}
