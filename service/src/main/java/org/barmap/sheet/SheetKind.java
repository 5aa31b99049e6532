package org.barmap.sheet;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** The sheets there are. */
public enum SheetKind {
  /** The night in order. */
  RUN_SHEET("Run sheet"),
  /** One slip for each page turn. */
  TURNS("Turn slips"),
  /** Long rests and how to count them. */
  RESTS("Rest sheet"),
  /** What the show changes, and what follows from it. */
  CHANGES("Changes"),
  /** Marks to write, ticked when they stand in the book. */
  PENCIL("Marks to write"),
  /** Marks that stand in the book, ticked when they are erased. */
  ERASE("Marks to erase"),
  /** A side for each number with all that is known of it. */
  STAND("Stand sheets"),
  /** Added bars to write, cut out and lay over the book. */
  STRIPS("Strips to lay over the book"),
  /** What trips a player who sits in for one night. */
  SUBSTITUTE("For the substitute"),
  /** Misprints, for the hirer. */
  ERRATA("Misprints");

  private final String title;

  SheetKind(String title) {
    this.title = title;
  }

  /** Returns its title. */
  public String title() {
    return title;
  }

  /** Returns the word it is asked for by, for instance {@code run-sheet}. */
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** Returns the sheet a word asks for. */
  public static Optional<SheetKind> of(String word) {
    return Arrays.stream(values()).filter(k -> k.word().equals(word)).findFirst();
  }
}
